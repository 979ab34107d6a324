import { describe, expect, it } from 'vitest';
import type { BikeSheet, EndSheet } from '../../src/bike/sheet.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { oddsWithSheet, sheetFindings } from '../../src/diagnosis/sheet-evidence.ts';
import { exampleSheet } from '../bike/example.ts';
import { rulesOf } from '../support/compile-text.ts';

const setting = (id: string, kind: string, sheet: string, directions: string): string => `
  - id: front.${id}
    for: [front]
    name: front ${id}
    plain: ${id}
    kind: ${kind}
    ${sheet}
    directions: {${directions}}
    source: common-practice
    status: trial`;
const cause = (id: string, reads = ''): string =>
  `${id}: {name: ${id}, plain: ${id}, prior: sometimes${reads}}`;

const model = buildModel(
  rulesOf({
    'a.yaml': `
settings:${setting('rebound.low', 'damper', 'sheet: clicks\n    adjuster: rebound.low', `${cause('too-slow', ', reads: low')}, ${cause('too-fast', ', reads: high')}`)}${setting('spring', 'spring', 'sheet: sag', `${cause('too-soft', ', reads: high')}, ${cause('too-firm')}`)}${setting('tyre', 'tyre', 'sheet: tyre', `${cause('too-soft', ', reads: low')}, ${cause('too-hard', ', reads: high')}`)}${setting('seals', 'condition', '', cause('worn'))}
`,
  }),
);
const { clicks, sag, tyre } = model.rules.numbers.sheet;

const sheet = exampleSheet('all-knobs');
const withFront = (front: Partial<EndSheet>): BikeSheet => ({
  ...sheet,
  ends: {
    ...sheet.ends,
    front: { travel: 0.17, spring: { kind: 'air' }, adjusters: {}, ...front },
  },
});
const found = (front: Partial<EndSheet>) => sheetFindings(model, withFront(front));

/** Decibans of a reading for a direction, from both normal densities written out. */
function decibans(x: number, direction: readonly [number, number], right: readonly [number, number]): number {
  const density = ([mean, sd]: readonly [number, number]): number =>
    Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
  return 10 * Math.log10(density(direction) / density(right));
}

describe('what the bike sheet says by itself', () => {
  it('is how many clicks a knob stands from where its maker starts', () => {
    const [only, ...more] = found({ adjusters: { 'rebound.low': { range: 16, now: 5, maker: 8 } } });
    expect(more).toEqual([]);
    expect(only).toMatchObject({ reads: 'clicks', deviation: -3 });
    expect(only!.decibans.map(([c]) => model.rules.causes[c]!.direction)).toEqual(['too-slow', 'too-fast']);
    expect(only!.decibans[0]![1]).toBeCloseTo(decibans(-3, clicks.low, clicks.right), 9);
    expect(only!.decibans[0]![1]).toBeGreaterThan(0);
    expect(only!.decibans[1]![1]).toBe(-clicks['most-db']);
  });

  it('is sag in points of travel, for the directions that it can be read of', () => {
    const [only] = found({ sagMeasured: 0.24, sagWanted: 0.2 });
    expect(only).toMatchObject({ reads: 'sag' });
    expect(only!.deviation).toBeCloseTo(4, 9);
    expect(only!.decibans.map(([c]) => model.rules.causes[c]!.direction)).toEqual(['too-soft']);
    expect(only!.decibans[0]![1]).toBeCloseTo(decibans(4, sag.high, sag.right), 9);
  });

  it('is a tyre without a target, far off what is usual for the weight by the figures of the pack', () => {
    const rows = [
      { kg: 60, front: 20, rear: 24 },
      { kg: 100, front: 26, rear: 30 },
    ];
    const near = { ...model.rules.sheetCheck.near, 'tyre-for': { low: 70, high: 160, rows } };
    const weighs = { ...model, rules: { ...model.rules, sheetCheck: { near, todo: {} } } };
    const of = (now: number, wanted?: number) =>
      sheetFindings(weighs, {
        ...withFront({ tyre: { now, ...(wanted === undefined ? {} : { wanted }) } }),
        riderMass: 80,
      });
    // 23 psi is usual: 158 579 Pa.
    const [only] = of(95_147);
    expect(only).toMatchObject({ reads: 'tyre', byMass: true });
    expect(only!.deviation).toBeCloseTo(-40, 2);
    expect(only!.decibans.map(([, db]) => db)).toEqual([tyre['most-db'], -tyre['most-db']]);
    expect(of(120_000)).toEqual([]);
    expect(of(95_147, 95_147)[0]).not.toHaveProperty('byMass');
  });

  it('is tyre pressure in percent of what is wanted', () => {
    const [only] = found({ tyre: { now: 141_000, wanted: 150_000 } });
    expect(only!.deviation).toBeCloseTo(-6, 9);
    expect(only!.decibans[0]![1]).toBeCloseTo(decibans(-6, tyre.low, tyre.right), 9);
  });

  it('never says more than the pack allows, nor anything for the wrong way, however far off it is', () => {
    const far = (now: number) =>
      found({ adjusters: { 'rebound.low': { range: 80, now, maker: 40 } } })[0]!.decibans.map(([, db]) => db);
    const { 'most-db': most } = clicks;
    expect(far(0)).toEqual([most, -most]);
    expect(far(80)).toEqual([-most, most]);
  });

  it('holds a reading past the vertex for one at it, also where what is off scatters less than what is right', () => {
    const narrow = {
      right: [0, 2] as [number, number],
      low: [-4, 1] as [number, number],
      high: [4, 1] as [number, number],
    };
    const own = { ...model.rules.numbers.sheet, clicks: { ...narrow, 'most-db': 90 } };
    const other = { ...model, rules: { ...model.rules, numbers: { ...model.rules.numbers, sheet: own } } };
    const slow = (now: number): number =>
      sheetFindings(other, withFront({ adjusters: { 'rebound.low': { range: 80, now, maker: 40 } } }))[0]!
        .decibans[0]![1];
    // The vertex is at −4 / (1 − ¼) = −16/3: no reading says more.
    const most = decibans(-16 / 3, narrow.low, narrow.right);
    expect(slow(35)).toBeCloseTo(decibans(-5, narrow.low, narrow.right), 9);
    for (const now of [34, 30, 20]) expect(slow(now)).toBeCloseTo(most, 9);
  });

  it('speaks the more for a direction, and the less for the other, the further it is off', () => {
    const of = (measured: number): number =>
      found({ sagMeasured: measured, sagWanted: 0.3 })[0]!.decibans[0]![1];
    for (let percent = 1; percent < 60; percent++)
      expect(of((percent + 1) / 100)).toBeGreaterThanOrEqual(of(percent / 100));
    expect(of(0.08)).toBe(-sag['most-db']);
    expect(of(0.5)).toBe(sag['most-db']);
  });

  it.each<[string, Partial<EndSheet>]>([
    ['clicks now', { adjusters: { 'rebound.low': { range: 16, maker: 8 } } }],
    ["the maker's clicks", { adjusters: { 'rebound.low': { range: 16, now: 8 } } }],
    ['the sag wanted', { sagMeasured: 0.2 }],
    ['the tyre pressure wanted', { tyre: { now: 150_000 } }],
  ])('is nothing without %s', (_, front) => {
    expect(found(front)).toEqual([]);
  });

  it('moves the odds of the causes it speaks of, and no others', () => {
    const findings = found({ sagMeasured: 0.24, sagWanted: 0.2 });
    const odds = oddsWithSheet(model, findings);
    const said = new Map(findings[0]!.decibans);
    model.odds.forEach((before, c) =>
      expect(10 * Math.log10(odds[c]! / before)).toBeCloseTo(said.get(c) ?? 0, 9),
    );
  });
});
