/**
 * Student (1908), "The probable error of a mean", Biometrika 6: hours of sleep gained by ten patients with two drugs;
 * the data set `sleep` of R, with the results that R's t.test prints for it.
 */
import { expect, test } from 'vitest';
import { interval, tCdf } from '../../src/trials/chance.ts';
import { leastSquares } from '../../src/trials/least-squares.ts';
import { standardErrors } from '../support/standard-errors.ts';

const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];

/** t, two-sided p and 95 % interval of one coefficient. */
function test95(
  rows: number[][],
  y: number[],
  j: number,
): { t: number; p: number; low: number; high: number } {
  const fit = leastSquares(rows, y)!;
  const scale = standardErrors(fit)[j]!;
  const t = fit.coefficients[j]! / scale;
  return {
    t,
    p: 2 * tCdf(-Math.abs(t), fit.df),
    ...interval({ mean: fit.coefficients[j]!, scale, df: fit.df }, 0.95),
  };
}

test('paired: t 4.0621 on 9 degrees, p 0.002833, interval 0.7001142 to 2.4598858', () => {
  const differences = second.map((value, i) => value - first[i]!);
  const paired = test95(differences.map(() => [1]), differences, 0); // prettier-ignore
  expect(paired.t).toBeCloseTo(4.0621, 4);
  expect(paired.p).toBeCloseTo(0.002833, 6);
  expect(paired.low).toBeCloseTo(0.7001142, 6);
  expect(paired.high).toBeCloseTo(2.4598858, 6);
});

test('the same through one column per patient, a second way to the same paired t', () => {
  const rows = [...first, ...second].map((_, i) => [
    i < 10 ? 0 : 1,
    ...first.map((__, patient) => (i % 10 === patient ? 1 : 0)),
  ]);
  expect(test95(rows, [...first, ...second], 0).t).toBeCloseTo(4.0621, 4);
});

test('pooled, which would be wrong: t 1.8608, p 0.07919, interval -0.203874 to 3.363874', () => {
  const rows = [...first, ...second].map((_, i) => [1, i < 10 ? 0 : 1]);
  const pooled = test95(rows, [...first, ...second], 1);
  expect(pooled.t).toBeCloseTo(1.8608, 4);
  expect(pooled.p).toBeCloseTo(0.07919, 5);
  expect(pooled.low).toBeCloseTo(-0.203874, 6);
  expect(pooled.high).toBeCloseTo(3.363874, 6);
});
