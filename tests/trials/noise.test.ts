import { describe, expect, it } from 'vitest';
import { noiseOf, type NoiseNumbers } from '../../src/trials/noise.ts';
import type { RiddenRun } from '../../src/trials/trial.ts';
import { ridden } from './invented.ts';

const NUMBERS: NoiseNumbers = { run: 0.5, rating: 0.7, weight: 6, within: 18 };
const runs = (...rows: readonly (readonly number[])[]): RiddenRun[] =>
  rows.map((row) => ({
    arm: 'reference',
    ratings: Object.fromEntries(row.map((value, i) => [`f${i}`, value])),
  }));

describe('the scatter before the runs are compared', () => {
  it('of one feeling is the judgement alone', () => {
    expect(noiseOf(runs([4], [6], [2]), NUMBERS)).toEqual({ sd: Math.sqrt(0.25 + 0.49), weight: 6 });
  });

  it('of feelings that move together is small', () => {
    const { sd, weight } = noiseOf(ridden('R4 +6 R4'), NUMBERS);
    expect(weight).toBe(24);
    expect(sd).toBeCloseTo(Math.sqrt((6 * (0.25 + 0.49 / 4)) / 24), 12);
  });

  it('of feelings that go apart is taken from what run and feeling leave over', () => {
    // Deviations ±1 in both rows after levels are off: sum 4 on (2 − 1)(2 − 1) degrees, rating² = 4.
    const { sd } = noiseOf(runs([3, 5], [5, 3]), NUMBERS);
    const own = (0.5 / 0.7) ** 2 * 4 + 4 / 2;
    expect(sd).toBeCloseTo(Math.sqrt((6 * (0.25 + 0.49 / 2) + 18 * own) / 24), 12);
  });

  it('takes no notice of what is not rated in every run', () => {
    const all = runs([3, 5, 1], [5, 3, 7]);
    const patchy = all.map((run, i) => (i === 0 ? { ...run, ratings: { f0: 3, f1: 5 } } : run));
    expect(noiseOf(patchy, NUMBERS)).toEqual(noiseOf(runs([3, 5], [5, 3]), NUMBERS));
  });

  it('of runs that share no feeling is that of one rating a run', () => {
    const patchy: RiddenRun[] = [
      { arm: 'reference', ratings: { f0: 4 } },
      { arm: 'reference', ratings: { f1: 6 } },
    ];
    // The earlier day: deviations ±1, sum 4 on one degree of freedom.
    const { sd } = noiseOf(patchy, NUMBERS, [runs([3, 5], [5, 3])]);
    const own = (0.5 / 0.7) ** 2 * 4 + 4;
    expect(sd).toBeCloseTo(Math.sqrt((6 * (0.25 + 0.49) + 18 * own) / 24), 12);
  });
});
