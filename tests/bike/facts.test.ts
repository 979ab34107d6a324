/** What the sheet says of its springs and its travel, in the words that gates and adjustments ask for. */
import { describe, expect, it } from 'vitest';
import { factValues, sheetFact } from '../../src/bike/facts.ts';
import { tyreByMass } from '../../src/bike/end-readings.ts';
import type { EndSheet } from '../../src/bike/sheet.ts';
import { baseRules } from '../support/base-rules.ts';
import { exampleSheet } from './example.ts';

const sheet = exampleSheet('all-knobs');
const { near } = baseRules().rules.sheetCheck;
const of = (path: string, front: Partial<EndSheet>): string | undefined =>
  sheetFact({ ...sheet, ends: { ...sheet.ends, front: { ...sheet.ends.front, ...front } } }, path, near);
const air = (spacers?: number, spacersMax?: number): Partial<EndSheet> => ({
  spring: {
    kind: 'air',
    pressure: 5e5,
    ...(spacers === undefined ? {} : { spacers }),
    ...(spacersMax === undefined ? {} : { spacersMax }),
  },
});

describe('the spacers of an air spring', () => {
  it.each<[number | undefined, number | undefined, string | undefined]>([
    [undefined, 5, undefined],
    [0, 5, 'none'],
    [2, 5, 'some'],
    [3, 5, 'many'],
    // Where the sheet does not say how many fit, five do.
    [2, undefined, 'some'],
    [3, undefined, 'many'],
    [2, 3, 'many'],
    [3, 6, 'some'],
  ])('%j of %j are %j', (spacers, most, fact) => {
    expect(of('front.spacers', air(spacers, most))).toBe(fact);
  });
  it('are none of a coil', () => {
    expect(of('front.spacers', { spring: { kind: 'coil', rate: 9000 } })).toBeUndefined();
  });
});

describe('the travel that was used', () => {
  it.each([
    [0.5, 'short'],
    [0.75, 'short'],
    [0.76, 'most'],
    [0.97, 'most'],
    [0.99, 'full'],
    [1, 'full'],
  ])('%j of it is %j', (travelUsed, fact) => {
    expect(of('front.travel-used', { travelUsed })).toBe(fact);
  });
  it('is not told where nobody read it', () => {
    const { travelUsed: _, ...front } = sheet.ends.front;
    expect(sheetFact({ ...sheet, ends: { ...sheet.ends, front } }, 'front.travel-used')).toBeUndefined();
  });
});

it('names all that it may say', () => {
  const values = factValues([]);
  expect(values.get('rear.spacers')).toEqual(['none', 'some', 'many']);
  expect(values.get('front.travel-used')).toEqual(['short', 'most', 'full']);
});

describe('a tyre by the weight of its rider', () => {
  // What the pack tells of a rider of 80 kg: 23.5 psi at the front; common practice, no source.
  it.each([
    [16, 'low'],
    [17, 'usual'],
    [23.5, 'usual'],
    [37, 'usual'],
    [38, 'high'],
  ])('at %j psi is %s', (psi, fact) => {
    const light = { ...sheet, riderMass: 80 };
    const front = { ...sheet.ends.front, tyre: { now: psi * 6894.757 } };
    expect(sheetFact({ ...light, ends: { ...sheet.ends, front } }, 'front.tyre', near)).toBe(fact);
  });
  it.each([
    [48, 'front', 18.7],
    [60, 'rear', 23.5],
    [92, 'front', 25.3],
    [92, 'rear', 28.6],
    [120, 'rear', 33.5],
  ] as const)('of %d kg usually has, at the %s, %d psi', (riderMass, end, psi) => {
    const part = { ...sheet.ends[end], tyre: { now: 1e5 } };
    const of = tyreByMass(
      { ...sheet, riderMass, ends: { ...sheet.ends, [end]: part } },
      end,
      near['tyre-for'],
    );
    expect(of!.usual / 6894.757).toBeCloseTo(psi, 3);
  });
  // Below 70 % of its target, and above 160 %, as of what is usual for the weight.
  it.each([
    [15, 15, 'usual'],
    [10, 15, 'low'],
    [40, 38, 'usual'],
    [40, 24, 'high'],
  ])('at %j psi with %j written down as its target is %s, whatever the rider weighs', (psi, target, fact) => {
    const tyre = { now: psi * 6894.757, wanted: target * 6894.757 };
    const ends = { ...sheet.ends, front: { ...sheet.ends.front, tyre } };
    expect(sheetFact({ ...sheet, riderMass: 80, ends }, 'front.tyre', near)).toBe(fact);
  });
  it('is not told where nobody was weighed, or no figures are there', () => {
    const { riderMass: _, ...light } = sheet;
    const nobody = { ...light, ends: { ...sheet.ends, front: { ...sheet.ends.front, tyre: { now: 1e5 } } } };
    expect(sheetFact(nobody, 'front.tyre', near)).toBeUndefined();
    expect(sheetFact(sheet, 'front.tyre')).toBeUndefined();
  });
});
