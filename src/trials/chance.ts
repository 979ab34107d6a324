/** Chances under a Student-t posterior: better than a bound, best of all, and worth keeping. */
import { contrast, type Posterior } from './model.ts';
import type { ArmName, Chances, Expected } from './trial.ts';
import jstat from 'jstat';
import { DEEDS, seenAs, type Deed, type Measured } from '../diagnosis/results.ts';

type Weights = Partial<Record<ArmName, number>>;

/** P(weighted sum of effects > bound). A contrast without any scatter is a plain comparison. */
export function chanceAbove(post: Posterior, weights: Weights, bound = 0): number {
  const { mean, scale, df } = contrast(post, weights);
  if (scale === 0) return mean > bound ? 1 : mean < bound ? 0 : 0.5;
  return tCdf((mean - bound) / scale, df);
}

/** The central interval that holds a quantity of this t distribution with probability `cover`. */
export function interval(
  { mean, scale, df }: { readonly mean: number; readonly scale: number; readonly df: number },
  cover: number,
): { low: number; high: number } {
  const half = tQuantile(0.5 + cover / 2, df) * scale;
  return { low: mean - half, high: mean + half };
}

/**
 * The chance of each setting to be the best one: the reference, and every arm that differs from it (a sham is the
 * reference's setting, and takes no part).
 */
export function chanceBest(post: Posterior): Partial<Record<ArmName, number>> {
  const arms = post.arms.filter((arm) => arm !== 'sham');
  const best: Partial<Record<ArmName, number>> = {};
  for (const arm of arms) {
    const rival = arms.find((other) => other !== arm);
    best[arm] = rival === undefined ? chanceAbove(post, { [arm]: 1 }) : chanceBoth(post, arm, rival);
  }
  best.reference = Math.max(0, 1 - arms.reduce((sum, arm) => sum + best[arm]!, 0));
  return best;
}

/** Simpson panels; the integrand is smooth, and 200 give about ten digits. */
const PANELS = 200;

/**
 * P(arm > 0 and arm > rival) for two arms of a bivariate t.
 *
 * Integrates over arm = mean + scale·√df·tan θ, which turns the heavy tails of the t density into cos^(df−1) θ on
 * a finite range; given the arm, the rival is again a t, with one more degree of freedom.
 */
function chanceBoth(post: Posterior, arm: ArmName, rival: ArmName): number {
  const { df } = post;
  const a = post.arms.indexOf(arm);
  const r = post.arms.indexOf(rival);
  const scale = Math.sqrt(post.scale[a]![a]!);
  const slope = post.scale[a]![r]! / scale ** 2;
  const leftOver = Math.sqrt(Math.max(0, post.scale[r]![r]! - slope * post.scale[a]![r]!));
  const density = (theta: number): number => Math.cos(theta) ** (df - 1);
  const inside = (theta: number): number => {
    const z = Math.sqrt(df) * Math.tan(theta);
    const value = post.mean[a]! + scale * z;
    const expected = post.mean[r]! + slope * scale * z;
    const spread = leftOver * Math.sqrt((df + z * z) / (df + 1));
    return density(theta) * tCdf((value - expected) / spread, df + 1);
  };
  const edge = Math.PI / 2 - 1e-9;
  const from = Math.max(-edge, Math.atan(-post.mean[a]! / (scale * Math.sqrt(df))));
  return simpson(inside, from, edge) / simpson(density, -edge, edge);
}

function simpson(f: (x: number) => number, from: number, to: number): number {
  const h = (to - from) / PANELS;
  let sum = f(from) + f(to);
  for (let i = 1; i < PANELS; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * h);
  return (sum * h) / 3;
}

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
