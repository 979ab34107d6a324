import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { leastSquares } from '../../src/trials/least-squares.ts';

test('an exact line is found, without residual', () => {
  const fit = leastSquares([[1, 0], [1, 1], [1, 2]], [3, 5, 7])!; // prettier-ignore
  expect(fit.coefficients[0]).toBeCloseTo(3, 12);
  expect(fit.coefficients[1]).toBeCloseTo(2, 12);
  expect(fit.residualSumOfSquares).toBeLessThan(1e-24);
  expect(fit.df).toBe(1);
});

test('columns that say the same give nothing instead of nonsense', () => {
  expect(leastSquares([[1, 2], [1, 2], [1, 2]], [1, 2, 3])).toBeNull(); // prettier-ignore
  expect(leastSquares([[1, 0], [1, 0]], [1, 2])).toBeNull(); // prettier-ignore
  expect(leastSquares([[1, 0, 1]], [1])).toBeNull();
});

test('as many rows as columns leave no degree of freedom', () => {
  expect(leastSquares([[1, 0], [1, 1]], [1, 2])!.df).toBe(0); // prettier-ignore
});

test('a caller who mixes up lengths is told', () => {
  expect(() => leastSquares([[1]], [1, 2])).toThrow(RangeError);
});

test('residuals stand at right angles to every column', () => {
  const value = fc.integer({ min: -50, max: 50 });
  fc.assert(
    fc.property(fc.array(fc.tuple(value, value, value), { minLength: 5, maxLength: 12 }), (data) => {
      const rows = data.map(([a, b]) => [1, a, b]);
      const y = data.map(([, , c]) => c);
      const fit = leastSquares(rows, y);
      if (fit === null) return;
      const residuals = rows.map(
        (row, i) => y[i]! - row.reduce((sum, x, j) => sum + x * fit.coefficients[j]!, 0),
      );
      for (let j = 0; j < 3; j++) {
        expect(Math.abs(rows.reduce((sum, row, i) => sum + row[j]! * residuals[i]!, 0))).toBeLessThan(1e-8);
      }
    }),
  );
});
