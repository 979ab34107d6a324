import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { runScores } from '../../src/trials/score.ts';

const runs = (...ratings: Record<string, number>[]) =>
  ratings.map((one) => ({ arm: 'reference' as const, ratings: one }));

test('with complete ratings a score is the mean', () => {
  expect(runScores(runs({ grip: 4, calm: 6 }, { grip: 3, calm: 4 }))).toEqual([5, 3.5]);
});

test('a feeling left out does not shift the run by the level of that feeling', () => {
  // hands are rated 3 points below grip throughout; the third run was not rated for grip
  const scores = runScores(runs({ grip: 6, hands: 3 }, { grip: 5, hands: 2 }, { hands: 3 }))!;
  expect(scores[2]).toBeCloseTo(scores[0]!, 10);
  expect(scores[1]).toBeCloseTo(scores[0]! - 1, 10);
});

test('runs that share no feeling cannot be compared', () => {
  expect(runScores(runs({ grip: 6 }, { calm: 2 }))).toBeNull();
  expect(runScores(runs({}, {}))).toBeNull();
});

test('a point more on every feeling of one run is a point more on its score, against all others', () => {
  const rating = fc.integer({ min: 1, max: 6 });
  const ratings = fc.array(fc.record({ grip: rating, calm: rating }), { minLength: 2, maxLength: 6 });
  fc.assert(
    fc.property(ratings, fc.boolean(), (list, gap) => {
      const seen = list.map(
        (one, i) => (gap && i === 1 ? { calm: one.calm } : one) as Record<string, number>,
      );
      const raised = seen.map((one, i) =>
        i === 0
          ? Object.fromEntries(Object.entries(one).map(([feeling, value]) => [feeling, value + 1]))
          : one,
      );
      const before = runScores(runs(...seen))!;
      const gained = runScores(runs(...raised))!.map((score, i) => score - before[i]!);
      for (const other of gained.slice(1)) expect(gained[0]! - other).toBeCloseTo(1, 9);
    }),
  );
});
