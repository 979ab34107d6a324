/** Trials of one step on the bike as it stands, judged together. */
import * as fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { judgementText } from '../../src/report/bike/trial-text.ts';
import { PLAIN } from '../../src/report/style.ts';
import { judge } from '../../src/trials/judge.ts';
import { resultsOf } from '../../src/trials/outcome.ts';
import { alone, looksOf, openShare } from '../../src/trials/pooled.ts';
import { readTrial } from '../../src/trials/trial-file.ts';
import type { RiddenRun, Trial } from '../../src/trials/trial.ts';
import { grounds } from '../../src/trials/verdict-words.ts';
import { CHANCES, ridden, rode } from './invented.ts';
import { kept, simulate, type Rider } from './simulate.ts';

const GAIN = 'R4 +5 R4 +5';
const short = { short: true } as const;
const day = (text: string, id: string, before: readonly Trial[] = []): Trial => ({
  ...rode(text, { ...short, id, before }),
  hidden: false,
});
const [first] = [day(GAIN, 'a')];
const second = day('R5 +6 R5 +6', 'b', [first]);
const effectOf = (trial: Trial) => judge(trial).effects[0]!;

describe('a second trial of the same step', () => {
  it('has the first one in it, and is expected of what was expected of that', () => {
    expect(second.before).toEqual([{ id: 'a', hidden: false, short: true, ridden: first.ridden }]);
    const again = rode(GAIN, { ...short, before: [first], chances: { helps: 0.1, harms: 0.1 } });
    expect(again.chances).toEqual(CHANCES);
    expect(readTrial(JSON.parse(JSON.stringify(second)))).toEqual({ value: second, problems: [] });
  });
  it('is of no use where both ways are ridden', () => {
    expect(rode(GAIN, { before: [first], bothWays: true }).before).toBeUndefined();
  });
  it('finds the same effect with more certainty, whatever the level of that day', () => {
    expect(effectOf(first).difference).toBeCloseTo(1, 9);
    expect(effectOf(second)).toMatchObject({ runs: 4 });
    expect(effectOf(second).difference).toBeCloseTo(1, 9);
    const width = ({ low, high }: { low: number; high: number }): number => high - low;
    // Twice the runs, half the variance; the noise is known a little better too.
    expect(width(effectOf(second)) / width(effectOf(first))).toBeLessThan(Math.SQRT1_2);
    expect(grounds(second, judge(second)).join(' ')).toContain('Ridden 4 times, in 2 trials together.');
  });
  it('takes out the drift of each day by itself', () => {
    const drifting = day('R2 +4 R4 +6', 'b', [day('R6 +6 R4 +4', 'a')]);
    expect(effectOf(drifting).difference).toBeCloseTo(1, 9);
  });
  it('tells belief its own ratings and no others: those of the first were told', () => {
    const other = day('R4 +4 R4 +4', 'b', [first]);
    const [own] = resultsOf(other, judge(other));
    const [apart] = resultsOf(alone(other), judge(alone(other)));
    expect(own).toEqual(apart);
  });
  it('counts an earlier one only where that can be compared by itself', () => {
    const halfRidden: Trial = { ...first, ridden: ridden('R4 +7') };
    const with_ = day(GAIN, 'b', [halfRidden]);
    expect(judge(with_).effects).toEqual(judge(alone(with_)).effects);
    expect(looksOf(with_)).toBe(1);
  });
  it('takes belief off as far as the riders knew the settings', () => {
    const unseen: Trial = { ...second, hidden: true };
    expect([openShare(first), openShare(second), openShare(unseen)]).toEqual([1, 1, 0.5]);
    // Of whom nobody said it, he knew.
    expect(openShare({})).toBe(1);
    expect(effectOf(unseen).measured.points - effectOf(second).measured.points).toBeCloseTo(0.2, 9);
  });
});

describe('the verdict on trials with gaps in their ratings', () => {
  /** Ratings of three feelings, each there or not; in turn without the step and with it. */
  const gappy = fc
    .array(
      fc.record(
        {
          grip: fc.integer({ min: 1, max: 7 }),
          calm: fc.integer({ min: 1, max: 7 }),
          hands: fc.integer({ min: 1, max: 7 }),
        },
        { requiredKeys: [] },
      ),
      { minLength: 3, maxLength: 8 },
    )
    .map((all) => all.map((ratings, i): RiddenRun => ({ arm: i % 2 === 0 ? 'reference' : 'plus', ratings })));
  const said = (trial: Trial): string => judgementText(trial, judge(trial), [], false, PLAIN);
  const riddenAs = (runs: readonly RiddenRun[], before: readonly Trial[] = []): Trial => ({
    ...day(GAIN, before.length === 0 ? 'a' : 'b', before),
    ridden: runs,
  });

  it('has no number that is infinite or none at all, whatever is missing', () => {
    fc.assert(
      fc.property(gappy, gappy, (one, two) => {
        const trial = riddenAs(two, [riddenAs(one)]);
        const judged = judge(trial);
        expect(numbersIn(judged).filter((value) => !Number.isFinite(value))).toEqual([]);
        expect(said(trial)).not.toMatch(/Infinity|NaN/);
      }),
    );
  });
  it('counts where no feeling is in every run of the second', () => {
    const patchy = [{ grip: 3 }, { grip: 5, calm: 5 }, { calm: 3 }, { calm: 5, grip: 5 }].map(
      (ratings, i): RiddenRun => ({ arm: i % 2 === 0 ? 'reference' : 'plus', ratings }),
    );
    const { low, high } = effectOf(riddenAs(patchy, [first]));
    expect([low > -7, high < 7]).toEqual([true, true]);
  });
  it('names all runs that counted', () => {
    expect(said(second)).toContain('Judged on 8 runs, 4 of them from earlier trials.');
    expect(said(first)).toContain('Judged on 4 runs.');
  });
});

/** Every number anywhere in a value. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

it('says what is wrong with an earlier trial in a file', () => {
  const [one] = second.before!;
  const broken = { ...second, before: [{ ...one!, ridden: [{ arm: 'minus', ratings: { grip: 9 } }] }] };
  expect(readTrial(JSON.parse(JSON.stringify(broken))).problems.map(({ path }) => path.join('.'))).toEqual([
    'before.0.ridden.arm',
    'before.0.ridden.ratings.grip',
  ]);
});

/** Seeded; the figures are in DEVELOPERS.md. Bounds are three standard errors wide. */
describe('the same step ridden again on other days', () => {
  const TRIALS = 400;
  const within = (rate: number): number => 3 * Math.sqrt((rate * (1 - rate)) / TRIALS);
  const usual: Rider = { name: 'usual', runNoise: 0.5, ratingNoise: 0.7, belief: 0.5, short: true };
  const noisy: Rider = { ...usual, runNoise: 0.9, ratingNoise: 1 };
  const rate = (rider: Rider, more: Partial<Rider>): number =>
    kept(simulate({ ...rider, ...more }, TRIALS, 17));
  test('a gain is kept more often after the second and the third', () => {
    const [one, two, three] = [1, 2, 3].map((days) => rate(usual, { step: 1.5, days })) as [
      number,
      number,
      number,
    ];
    expect(two).toBeGreaterThan(one + 0.1);
    expect(three).toBeGreaterThan(two + 0.05);
    expect(three).toBeGreaterThan(0.85 - within(0.85));
  });
  test('what harms is not', () => {
    for (const rider of [usual, noisy])
      expect(rate(rider, { step: -1, days: 3 })).toBeLessThan(0.01 + within(0.01));
  });
  test('nothing is kept less often than by three trials each judged by itself', () => {
    expect(rate(usual, { days: 3 })).toBeLessThan(0.03 + within(0.03));
    expect(rate(noisy, { days: 3 })).toBeLessThan(rate(noisy, { days: 3, apart: true }));
  });
});
