import { describe, expect, test } from 'vitest';
import { leastSquares } from '../../src/trials/least-squares.ts';
import { standardErrors } from '../support/standard-errors.ts';
import { SETS } from './nist-strd.ts';

/** Correct significant digits against a certified value; against a certified 0, correct decimals. */
function digits(value: number, certified: number): number {
  const off = certified === 0 ? Math.abs(value) : Math.abs(value - certified) / Math.abs(certified);
  return off === 0 ? 15 : -Math.log10(off);
}

describe('NIST StRD, linear regression (source and origin of the data: nist-strd.ts)', () => {
  test.each(SETS)('$name ($difficulty): coefficients, standard errors, residual sum of squares', (set) => {
    const fit = leastSquares(set.rows, set.y)!;
    const errors = standardErrors(fit);
    set.coefficients.forEach((certified, j) => {
      expect(digits(fit.coefficients[j]!, certified), `coefficient ${j}`).toBeGreaterThan(set.digits);
      expect(digits(errors[j]!, set.errors[j]!), `standard error ${j}`).toBeGreaterThan(set.digits);
    });
    expect(digits(fit.residualSumOfSquares, set.residualSumOfSquares)).toBeGreaterThan(set.digits);
  });
});

test('NIST StRD NumAcc4 (constructed by Simon & Lesage 1989; exact by its design): mean 10000000.2, sd 0.1', () => {
  // 10000000.2, then .1 and .3 in turn 500 times; values as in NumAcc4.dat, as carried by Apache Commons Math 3.6.1
  const y = [10000000.2, ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? 10000000.1 : 10000000.3))];
  const fit = leastSquares(y.map(() => [1]), y)!; // prettier-ignore
  expect(digits(fit.coefficients[0]!, 10000000.2)).toBeGreaterThan(13);
  expect(digits(Math.sqrt(fit.residualSumOfSquares / fit.df), 0.1)).toBeGreaterThan(7);
});
