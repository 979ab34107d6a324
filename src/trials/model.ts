/**
 * The model of a trial: score = reference + drift·run + effect of the arm + noise. Trials that count together have a level
 * and a drift each, and the same effects.
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
  /** which of the trials that count together it is of, by number from 0; default 0 */
  readonly sitting?: number;
  /** what it counts against a full run, 0..1; default 1 */
  readonly weight?: number;
}

/** What is known about the scatter between runs before this trial: a standard deviation, worth so many runs. */
export interface NoisePrior {
  readonly sd: number;
  readonly weight: number;
}

/** Where a run stands, without what it was rated. */
type Place = Omit<Reading, 'score'>;

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
  /** change of the score from one run to the next in the last trial, and its scale */
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
  const roots = readings.map(({ weight = 1 }) => Math.sqrt(weight));
  const fit = leastSquares(
    design(readings).map((row, i) => row.map((x) => x * roots[i]!)),
    readings.map((reading, i) => reading.score * roots[i]!),
  );
  if (fit === null) return null;
  const df = fit.df + prior.weight;
  if (df <= 0) return null;
  const variance = (fit.residualSumOfSquares + prior.weight * prior.sd ** 2) / df;
  return shape(fit.coefficients, fit.unscaled, readings, variance, df);
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

/** Columns: for each trial its level and its run number (centred, so that the level stays well determined), one per arm. */
function design(places: readonly Place[]): number[][] {
  const arms = armsOf(places);
  const sittings = sittingsOf(places);
  const runs = sittings.map((one) => places.filter(({ sitting = 0 }) => sitting === one));
  return places.map((place) => {
    const own = sittings.indexOf(place.sitting ?? 0);
    const middle = (runs[own]!.length - 1) / 2;
    const levels = sittings.flatMap((_, i) => (i === own ? [1, runs[own]!.indexOf(place) - middle] : [0, 0]));
    return [...levels, ...arms.map((arm) => (arm === place.arm ? 1 : 0))];
  });
}

function sittingsOf(places: readonly Place[]): number[] {
  return [...new Set(places.map(({ sitting = 0 }) => sitting))];
}

function armsOf(places: readonly Place[]): ArmName[] {
  return [...new Set(places.map(({ arm }) => arm))].filter((arm) => arm !== 'reference').sort();
}

function shape(
  coefficients: readonly number[],
  unscaled: readonly (readonly number[])[],
  places: readonly Place[],
  variance: number,
  df: number,
): Posterior {
  const arms = armsOf(places);
  const first = 2 * sittingsOf(places).length;
  const drift = first - 1;
  return {
    arms,
    runs: arms.map((arm) => places.filter((one) => one.arm === arm).length),
    mean: coefficients.slice(first),
    scale: unscaled.slice(first).map((row) => row.slice(first).map((value) => value * variance)),
    df,
    drift: { mean: coefficients[drift]!, scale: Math.sqrt(variance * unscaled[drift]![drift]!) },
    noise: Math.sqrt(variance),
  };
}
