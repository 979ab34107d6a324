/** The chance that a change is worth keeping: what the diagnosis expected of it, and what the ratings say. */
import jstat from 'jstat';
import { DEEDS, seenAs, type Deed, type Measured } from '../diagnosis/points.ts';
import type { Chances, Expected } from './trial.ts';

/**
 * P(effect > bound): each deed's normal distribution updated by the measured difference, and the deeds weighed by how
 * well they foretold it. All in closed form: precision is 1/sd² + 1/error², the mean is weighed by precision.
 *
 * @param chances of helping and of harming, as the diagnosis had them before the trial
 */
export function chanceOf(expected: Expected, chances: Chances, measured: Measured, bound: number): number {
  const seen = seenAs(expected, measured);
  const before: Record<Deed, number> = {
    helped: chances.helps,
    nothing: 1 - chances.helps - chances.harms,
    harmed: chances.harms,
  };
  let total = 0;
  let above = 0;
  for (const deed of DEEDS) {
    const weight = before[deed] * seen[deed];
    const [mean, sd] = expected.points[deed];
    const precision = 1 / sd ** 2 + 1 / measured.error ** 2;
    const middle = (mean / sd ** 2 + measured.points / measured.error ** 2) / precision;
    total += weight;
    above += weight * (1 - jstat.normal.cdf(bound, middle, 1 / Math.sqrt(precision)));
  }
  return above / total;
}
