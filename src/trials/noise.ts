/** How much a rider's ratings scatter: what is known before the runs are compared. */
import type { NoisePrior } from './model.ts';
import type { RiddenRun } from './trial.ts';

export interface NoiseNumbers {
  /** scatter from one run to the next, and of one rating within a run, points; judgement */
  readonly run: number;
  readonly rating: number;
  /** what this judgement is worth, and what the scatter within the runs is worth, in runs */
  readonly weight: number;
  readonly within: number;
}

/**
 * The prior for the scatter of a run's score.
 *
 * The mean of F ratings scatters by run² + rating²/F. Six runs say little about it themselves, but the feelings of
 * one run, rated side by side, say how this rider scatters: what is left of a rating once its run's level and its
 * feeling's level are taken off has the variance rating², on (runs − 1)(feelings − 1) degrees of freedom. A rider
 * whose feelings scatter is taken to scatter from run to run in the same proportion.
 *
 * @param ridden the judged runs; ratings that are not there in every run are left out of this estimate
 * @param before those of earlier trials that count together with these: the feelings may stand otherwise on another day
 */
export function noiseOf(
  ridden: readonly RiddenRun[],
  numbers: NoiseNumbers,
  before: readonly (readonly RiddenRun[])[] = [],
): NoisePrior {
  const { run, rating, weight, within } = numbers;
  // Where no feeling is in every run, the runs hang together by a chain: each is worth one rating at least.
  const feelings = Math.max(1, sharedFeelings(ridden).length);
  const judged = variance(run, rating, feelings);
  const left = [...before, ridden].map((runs) => leftOver(runs, sharedFeelings(runs)));
  const df = left.reduce((all, one) => all + one.df, 0);
  const seen = df > 0 ? left.reduce((all, one) => all + one.sum, 0) / df : undefined;
  if (seen === undefined) return { sd: Math.sqrt(judged), weight };
  const own = variance((run / rating) * Math.sqrt(seen), Math.sqrt(seen), feelings);
  return { sd: Math.sqrt((weight * judged + within * own) / (weight + within)), weight: weight + within };
}

function variance(run: number, rating: number, feelings: number): number {
  return run ** 2 + rating ** 2 / feelings;
}

function sharedFeelings(ridden: readonly RiddenRun[]): string[] {
  const [first, ...rest] = ridden;
  return Object.keys(first?.ratings ?? {}).filter((id) => rest.every((one) => one.ratings[id] !== undefined));
}

/** Sum of squares of run × feeling, and its degrees of freedom. */
function leftOver(
  ridden: readonly RiddenRun[],
  feelings: readonly string[],
): { readonly sum: number; readonly df: number } {
  const table = ridden.map((run) => feelings.map((id) => run.ratings[id]!));
  const df = (table.length - 1) * (feelings.length - 1);
  if (df <= 0) return { sum: 0, df: 0 };
  const all = mean(table.flat());
  const byFeeling = feelings.map((_, f) => mean(table.map((row) => row[f]!)));
  let sum = 0;
  for (const row of table) {
    const level = mean(row);
    row.forEach((value, f) => (sum += (value - level - byFeeling[f]! + all) ** 2));
  }
  return { sum, df };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
