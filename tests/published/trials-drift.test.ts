/** NIST/SEMATECH e-Handbook of Statistical Methods, 2.3.3.1.2: elimination of linear drift by the order A B B A. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { posterior, type Reading } from '../../src/trials/model.ts';

const FLAT = { sd: 1, weight: 1 };

/** Y1 = X − 3d, Y2 = R − d, Y3 = R + d, Y4 = X + 3d. */
function abba(x: number, r: number, d: number): Reading[] {
  return [
    { arm: 'plus', score: x - 3 * d },
    { arm: 'reference', score: r - d },
    { arm: 'reference', score: r + d },
    { arm: 'plus', score: x + 3 * d },
  ];
}

test("the handbook's estimates: difference ½[(Y1−Y2)−(Y3−Y4)], drift ¼(−Y1+Y2−Y3+Y4)", () => {
  const value = fc.integer({ min: -100, max: 100 });
  fc.assert(
    fc.property(fc.tuple(value, value, value, value), (y) => {
      const readings = abba(0, 0, 0).map((reading, i) => ({ ...reading, score: y[i]! }));
      const post = posterior(readings, FLAT)!;
      const [a, b, c, d] = y as [number, number, number, number];
      expect(post.mean[0]).toBeCloseTo((a - b - (c - d)) / 2, 9);
    }),
  );
});

test('drift is removed exactly: X 10, R 8, d 0.5 gives the difference 2 and the drift 0.5 (constructed numbers)', () => {
  const post = posterior(abba(10, 8, 0.5), FLAT)!;
  expect(abba(10, 8, 0.5).map((reading) => reading.score)).toEqual([8.5, 7.5, 8.5, 11.5]);
  expect(post.mean[0]).toBeCloseTo(2, 12);
  // the handbook's d is half the drift from one reading to the next (−3d, −d, d, 3d)
  expect(post.drift.mean / 2).toBeCloseTo(0.5, 12);
});

test('in the order A B A B plain means are biased by the drift (X−R−2d), the model is not (constructed numbers)', () => {
  const scores = [10 - 1.5, 8 - 0.5, 10 + 0.5, 8 + 1.5];
  expect((scores[0]! + scores[2]! - scores[1]! - scores[3]!) / 2).toBeCloseTo(1, 12);
  const arms = ['plus', 'reference', 'plus', 'reference'] as const;
  const post = posterior(scores.map((score, i) => ({ arm: arms[i]!, score })), FLAT)!; // prettier-ignore
  expect(post.mean[0]).toBeCloseTo(2, 12);
});
