import { describe, expect, it } from 'vitest';
import { checkSheet } from '../../src/bike/check.ts';
import { readSheet } from '../../src/bike/read.ts';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { exampleSheet, withValue } from './example.ts';

const said = (sheet: BikeSheet): string[] =>
  checkSheet(sheet).map(({ end, severity, message }) => `${severity} ${end ?? 'bike'}: ${message}`);
/** What is said of the all-knobs bike only because of one value. */
const becauseOf = (path: string, value: unknown): string[] => {
  const before = said(exampleSheet('all-knobs'));
  return said(readSheet(withValue(path, value)).sheet!).filter((line) => !before.includes(line));
};

describe('checking a sheet', () => {
  it('has nothing to say of a complete one in order', () => {
    expect(said(exampleSheet('all-knobs'))).toEqual([]);
  });

  it('puts what to look at before what is missing before what is worth knowing', () => {
    expect(said(exampleSheet('few-knobs'))).toEqual([
      'check front: sag is 26 % where 20 % is wanted',
      'note bike: the wheelbase is not written down',
      "note front: low-speed compression: the maker's starting clicks are not written down",
      'note front: how much travel the hardest run used is not written down',
      'note rear: rebound stands fully closed',
      'note rear: how much travel the hardest run used is not written down',
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
    const found = checkSheet(sheet!);
    expect(said(sheet!)).toEqual([
      "missing bike: the rider's mass is not written down",
      'missing front: the tyre pressure now is not written down',
      'missing front: the spring pressure is not written down',
      'missing front: the sag measured is not written down',
      'missing front: the sag wanted is not written down',
      'missing front: no rebound knob is written down',
      'missing rear: the tyre pressure now is not written down',
      'missing rear: the spring rate is not written down',
      'missing rear: the preload is not written down',
      'missing rear: the sag measured is not written down',
      'missing rear: the sag wanted is not written down',
      'missing rear: no rebound knob is written down',
      'missing rear: the shock stroke is not written down',
      "note bike: the bike's mass is not written down",
      'note bike: the wheelbase is not written down',
      'note front: the tyre pressure wanted is not written down',
      "note front: the maker's most pressure is not written down",
      'note front: how much travel the hardest run used is not written down',
      'note rear: the tyre pressure wanted is not written down',
      "note rear: the maker's most preload is not written down",
      'note rear: how much travel the hardest run used is not written down',
    ]);
    expect(found.every((f) => f.todo.length > 10)).toBe(true);
  });

  it.each([
    ['front.rebound.low', { clicks: 16, maker: 8 }, 'missing front: low-speed rebound: clicks now unknown'],
    ['front.sag.measured', '22.1%', 'check front: sag is 22.1 % where 20 % is wanted'],
    [
      'front.spring.pressure',
      121,
      "check front: the spring pressure of 121 psi is above the maker's limit of 120 psi",
    ],
    [
      'front.spring.pressure',
      50,
      "check front: the spring pressure of 50 psi is below the maker's limit of 55 psi",
    ],
    ['rear.tyre.now', 24, 'check rear: the tyre is at 24 where 26 psi is wanted'],
    [
      'rear.stroke',
      50,
      'check rear: these leverages and this travel need a stroke of 62.53 mm, the sheet says 50 mm',
    ],
    ['rear.compression.high.now', 8, 'note rear: high-speed compression stands fully open'],
    ['changed', [{ what: 'grips' }], 'missing bike: nobody wrote down when this was changed: grips'],
  ])('%s: %j', (path, value, line) => {
    expect(becauseOf(path, value)).toEqual([line]);
  });

  it('tells of preload beyond the maker’s most', () => {
    const spring = { kind: 'coil', rate: 80, preload: 4, 'preload-max': 3 };
    expect(becauseOf('rear.spring', spring)).toEqual([
      "check rear: the preload of 4 mm is above the maker's 3 mm",
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
