/** Student's t: how sure a difference is when the noise is known from a few runs only. */
import jstat from 'jstat';

/** P(T ≤ x) for `df` > 0 degrees of freedom; `df` need not be whole. Accurate to about 1e-8. */
export function tCdf(x: number, df: number): number {
  // The library is 5e-9 below it there.
  if (x === 0) return 0.5;
  return jstat.studentt.cdf(x, df);
}

/** The x with P(T ≤ x) = p, 0 < p < 1. Accurate to about 1e-8. */
export function tQuantile(p: number, df: number): number {
  if (p === 0.5) return 0;
  return jstat.studentt.inv(p, df);
}
