import { expect, it } from 'vitest';
import { stepWords } from '../../src/report/phrases.ts';

it.each([
  [{ by: 0.75, unit: 'turns', from: 1, to: 1.75, positions: null }, '(1 → 1.75 turns)'],
  [{ by: -0.35, unit: 'bar', from: 6, to: 5.65, positions: null }, '(6 → 5.65 bar)'],
  [{ by: 2, unit: 'psi', from: 17.4045, to: 19.4045, positions: null }, '(17.4 → 19.4 psi)'],
  [{ by: 4, unit: 'psi', from: 82.5, to: 86.5, positions: null }, '(82.5 → 86.5 psi)'],
])('a step is told from where to where as far as it can be set: %o', (step, told) => {
  expect(
    stepWords({ amount: null, ...(step as object) } as unknown as Parameters<typeof stepWords>[0]),
  ).toContain(told);
});
