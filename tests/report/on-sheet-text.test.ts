/** Where the sheet has the number that is asked for, the question says it. */
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { readSheet } from '../../src/bike/form/read.ts';
import { onSheetText } from '../../src/report/bike/on-sheet-text.ts';

const sheet = readSheet(
  parse(`
bike: 1
id: u
kind: trail
units: { pressure: psi }
front: { travel: 150, spring: { kind: air, pressure: 80 }, rebound: { clicks: 12, now: 4 }, tyre: { now: 22.6 }, travel-used: 91%, sag: { measured: 18% } }
rear: { travel: 140, spring: { kind: air, pressure: 180 }, rebound: { clicks: 12 }, sag: { measured: 29% } }
`),
).sheet!;

it.each([
  ['front.rebound.low', 'On the sheet: 4 of 12 clicks from closed.'],
  ['front.tyre', 'On the sheet: 22.6 psi.'],
  ['front.travel-used', 'On the sheet: 91 % of the travel.'],
  ['front.sag.measured', 'On the sheet: 18 % of the travel.'],
  ['rear.sag.measured', "On the sheet: 29 % of the shock's stroke."],
  ['rear.travel-used', undefined],
  ['rear.rebound.low', undefined],
  ['rear.compression.low', undefined],
  [undefined, undefined],
])('%s: %s', (setting, says) => {
  expect(onSheetText(sheet, setting)).toBe(says);
  expect(onSheetText(undefined, setting)).toBeUndefined();
});
