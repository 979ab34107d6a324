import { describe, expect, it } from 'vitest';
import { checkSheet } from '../../src/bike/check/check.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { baseRules } from '../support/base-rules.ts';
import { exampleSheet, withValue } from './example.ts';

const said = (sheet: BikeSheet): string[] =>
  checkSheet(sheet, baseRules().rules.sheetCheck).map(
    ({ end, severity, message }) => `${severity} ${end ?? 'bike'}: ${message}`,
  );
/** What is said of the all-knobs bike only because of one value. */
const becauseOf = (path: string, value: unknown): string[] => {
  const before = said(exampleSheet('all-knobs'));
  return said(readSheet(withValue(path, value)).sheet!).filter((line) => !before.includes(line));
};

describe('checking a sheet', () => {
  it('leaves a knob alone that is two clicks from the recommended figure', () => {
    expect(becauseOf('front.rebound.low.now', 10)).toEqual([]);
  });

  it('has nothing to say of a complete one in order', () => {
    expect(said(exampleSheet('all-knobs'))).toEqual([]);
  });

  it('puts what to look at before what is missing before what is worth knowing', () => {
    expect(said(exampleSheet('few-knobs'))).toEqual([
      'check front: sag is 26 %, target 20 %',
      'note bike: wheelbase not recorded',
      'note front: low-speed compression: recommended clicks not recorded',
      'note front: travel used on the hardest run not recorded',
      'note rear: rebound is fully closed',
      'note rear: travel used on the hardest run not recorded',
    ]);
  });

  it('of an empty one names everything to measure, and says how', () => {
    const end = { travel: 150, spring: { kind: 'air' } };
    const { sheet } = readSheet({
      bike: 1,
      id: 'a',
      kind: 'trail',
      front: end,
      rear: { ...end, spring: { kind: 'coil' } },
    });
    const found = checkSheet(sheet!, baseRules().rules.sheetCheck);
    expect(said(sheet!)).toEqual([
      'missing bike: rider weight not recorded',
      'missing front: current tyre pressure not recorded',
      'missing front: spring pressure not recorded',
      'missing front: measured sag not recorded',
      'missing front: target sag not recorded',
      'missing front: no rebound knob recorded',
      'missing rear: current tyre pressure not recorded',
      'missing rear: spring rate not recorded',
      'missing rear: preload not recorded',
      'missing rear: measured sag not recorded',
      'missing rear: target sag not recorded',
      'missing rear: no rebound knob recorded',
      'missing rear: shock stroke not recorded',
      'note bike: bike weight not recorded',
      'note bike: wheelbase not recorded',
      'note front: target tyre pressure not recorded',
      'note front: maximum pressure (manufacturer) not recorded',
      'note front: travel used on the hardest run not recorded',
      'note rear: target tyre pressure not recorded',
      'note rear: maximum preload (manufacturer) not recorded',
      'note rear: travel used on the hardest run not recorded',
    ]);
    expect(found.every((f) => f.todo.length > 10)).toBe(true);
  });

  it.each([
    [
      'front.rebound.low',
      { clicks: 16, maker: 8 },
      'missing front: low-speed rebound: current setting not recorded',
    ],
    ['front.sag.measured', '22.1%', 'check front: sag is 22.1 %, target 20 %'],
    [
      'front.spring.pressure',
      121,
      "check front: the spring pressure of 121 psi is above the manufacturer's limit of 120 psi",
    ],
    [
      'front.spring.pressure',
      50,
      "check front: the spring pressure of 50 psi is below the manufacturer's limit of 55 psi",
    ],
    ['rear.tyre.now', 24, 'check rear: the tyre is at 24, target 26 psi'],
    ['rear.tyre', { now: 15 }, 'check rear: the tyre is at 15; 27.2 psi is usual for this weight'],
    [
      'rear.tyre',
      { now: 15, wanted: 15 },
      'check rear: the tyre is at 15; 27.2 psi is usual for this weight',
    ],
    ['front.tyre', { now: 45 }, 'check front: the tyre is at 45; 24.1 psi is usual for this weight'],
    ['rear.stroke', 50, 'check rear: leverage and travel need a stroke of 62.53 mm, the sheet says 50 mm'],
    ['rear.compression.high.now', 8, 'note rear: high-speed compression is fully open'],
    [
      'front.rebound.low.now',
      11,
      'note front: low-speed rebound is at 11, 3 clicks more open than the recommended 8',
    ],
    [
      'front.rebound.low.now',
      5,
      'note front: low-speed rebound is at 5, 3 clicks more closed than the recommended 8',
    ],
    ['changed', [{ what: 'grips' }], 'missing bike: date of this change not recorded: grips'],
  ])('%s: %j', (path, value, line) => {
    expect(becauseOf(path, value)).toEqual([line]);
  });

  it('goes by what a pack calls near, and names what it says nothing of all the same', () => {
    const sheet = readSheet(withValue('front.sag.measured', '22.1%')).sheet!;
    const { near } = baseRules().rules.sheetCheck;
    const [told] = checkSheet(sheet, { near, todo: {} });
    expect(told).toMatchObject({
      message: 'sag is 22.1 %, target 20 %',
      todo: expect.stringContaining('write it on the sheet'),
    });
    expect(checkSheet(sheet, { near: { ...near, sag: 2.2 }, todo: {} })).toEqual([]);
  });

  it('tells of preload beyond the maker’s most', () => {
    const spring = { kind: 'coil', rate: 80, preload: 4, 'preload-max': 3 };
    expect(becauseOf('rear.spring', spring)).toEqual([
      "check rear: the preload of 4 mm is above the manufacturer's maximum of 3 mm",
    ]);
  });

  it.each([
    ['front.sag.measured', '22%'],
    ['rear.tyre.now', 25],
    ['rear.stroke', 65],
  ])('lets %s be %s, which is within what measuring gives', (path, value) => {
    expect(becauseOf(path, value)).toEqual([]);
  });
});
