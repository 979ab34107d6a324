import type { LeastSquares } from '../../src/trials/least-squares.ts';

/** Classical standard errors of a fit, √(s²·diag). */
export function standardErrors({ residualSumOfSquares, df, unscaled }: LeastSquares): number[] {
  return unscaled.map((row, j) => Math.sqrt((residualSumOfSquares / df) * row[j]!));
}
