/** How far something was changed, as it is typed. */
import { expect, it } from 'vitest';
import { farOf } from '../../src/cli/asking/tried-prompt.ts';

it.each([
  ['2', 'clicks', 2],
  ['1,5', 'turns', 1.5],
  ['2 clicks', 'clicks', 2],
  ['1 Click', 'clicks', 1],
  ['4 psi', 'psi', 4],
  // 1 bar is 14.50 psi: handbook value, from memory.
  ['0.2 bar', 'psi', 2.9],
  ['0.2bar', 'psi', 2.9],
])('"%s" in %s is %d', (typed, unit, far) => {
  expect(farOf(typed, unit)).toBeCloseTo(far, 1);
});

it.each([
  ['0', 'clicks'],
  ['a bit', 'clicks'],
  ['2 kg', 'psi'],
  ['2 psi', 'clicks'],
  ['3 mm', 'turns'],
  ['-3', 'psi'],
  ['', 'psi'],
])('"%s" in %s is no amount', (typed, unit) => {
  expect(farOf(typed, unit)).toBeUndefined();
});
