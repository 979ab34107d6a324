/**
 * The model of a trial: score = reference + drift·run + effect of the arm + noise.
 *
 * Drift is a straight line in the run number, not in the time of day: a lunch break is not twenty runs' worth of
 * fatigue or learning. Each arm has its own effect against the reference; nothing says that plus and minus are
 * opposites. Effects and drift have flat priors, so drift that is linear is removed exactly. The noise has a
 * prior (see `NoisePrior`), because five runs leave one degree of freedom, and no one can be sure of anything on
 * one; the posterior of every effect is then a Student t with the prior's weight added to its degrees of freedom.
 */
import { leastSquares } from './least-squares.ts';
import type { ArmName } from './trial.ts';

/** One judged run. */
export interface Reading {
  readonly arm: ArmName;
  readonly score: number;
  /** what it counts against a full run, 0..1; default 1 */
  readonly weight?: number;
}

/** What is known about the scatter between runs before this trial: a standard deviation, worth so many runs. */
export interface NoisePrior {
  readonly sd: number;
  readonly weight: number;
}

/** Posterior of the effects against the reference: a multivariate t. */
export interface Posterior {
  /** the arms that were ridden, without the reference, and how often each was */
  readonly arms: readonly ArmName[];
  readonly runs: readonly number[];
  /** how much better than the reference, in the unit of the score */
  readonly mean: readonly number[];
  /** scale matrix (not the covariance) */
  readonly scale: readonly (readonly number[])[];
  readonly df: number;
  /** change of the score from one run to the next, and its scale */
  readonly drift: { readonly mean: number; readonly scale: number };
  /** scatter of one run about the model, in the unit of the score */
  readonly noise: number;
}

/**
 * Posterior from the runs in riding order.
 *
 * @returns null when drift and effects cannot be told apart yet (a reference run after the change is missing)
 */
export function posterior(readings: readonly Reading[], prior: NoisePrior): Posterior | null {
  const ridden = readings.map((reading) => reading.arm);
  const arms = armsOf(ridden);
  const roots = readings.map(({ weight = 1 }) => Math.sqrt(weight));
  const fit = leastSquares(
    design(ridden, arms).map((row, i) => row.map((x) => x * roots[i]!)),
    readings.map((reading, i) => reading.score * roots[i]!),
  );
  if (fit === null) return null;
  const df = fit.df + prior.weight;
  if (df <= 0) return null;
  const variance = (fit.residualSumOfSquares + prior.weight * prior.sd ** 2) / df;
  return shape(fit.coefficients, fit.unscaled, ridden, variance, df);
}

/** The posterior to expect after more runs, if the effects and the scatter stay what they look like now. */
export function foreseen(
  now: Posterior,
  ridden: readonly Omit<Reading, 'score'>[],
  more: readonly ArmName[],
): Posterior | null {
  const all = [...ridden.map(({ arm }) => arm), ...more];
  const arms = armsOf(all);
  const fit = leastSquares(
    design(all, arms).map((row, i) => row.map((x) => x * Math.sqrt(ridden[i]?.weight ?? 1))),
    all.map(() => 0),
  );
  if (fit === null) return null;
  const means = arms.map((arm) => now.mean[now.arms.indexOf(arm)] ?? 0);
  const df = now.df + more.length - (arms.length - now.arms.length);
  return shape([0, now.drift.mean, ...means], fit.unscaled, all, now.noise ** 2, df);
}

/** A weighted sum of effects; an arm left out has weight 0. */
export function contrast(
  post: Posterior,
  weights: Partial<Record<ArmName, number>>,
): { readonly mean: number; readonly scale: number; readonly df: number } {
  const w = post.arms.map((arm) => weights[arm] ?? 0);
  const mean = w.reduce((sum, weight, i) => sum + weight * post.mean[i]!, 0);
  const variance = w.reduce(
    (sum, weight, i) => sum + w.reduce((inner, other, j) => inner + weight * other * post.scale[i]![j]!, 0),
    0,
  );
  return { mean, scale: Math.sqrt(Math.max(0, variance)), df: post.df };
}

/** Columns: level, run number (centred, so that the level stays well determined), one per arm. */
function design(ridden: readonly ArmName[], arms: readonly ArmName[]): number[][] {
  const middle = (ridden.length - 1) / 2;
  return ridden.map((arm, run) => [1, run - middle, ...arms.map((one) => (one === arm ? 1 : 0))]);
}

function armsOf(ridden: readonly ArmName[]): ArmName[] {
  return [...new Set(ridden)].filter((arm) => arm !== 'reference').sort();
}

function shape(
  coefficients: readonly number[],
  unscaled: readonly (readonly number[])[],
  ridden: readonly ArmName[],
  variance: number,
  df: number,
): Posterior {
  const arms = armsOf(ridden);
  return {
    arms,
    runs: arms.map((arm) => ridden.filter((one) => one === arm).length),
    mean: coefficients.slice(2),
    scale: unscaled.slice(2).map((row) => row.slice(2).map((value) => value * variance)),
    df,
    drift: { mean: coefficients[1]!, scale: Math.sqrt(variance * unscaled[1]![1]!) },
    noise: Math.sqrt(variance),
  };
}
