/** Chances under a Student-t posterior: better than a bound, and best of all. */
import { contrast, type Posterior } from './model.ts';
import { tCdf, tQuantile } from './student.ts';
import type { ArmName } from './trial.ts';

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
