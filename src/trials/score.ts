/**
 * From several ratings a run to one score a run.
 *
 * The run is what was changed, so the run is the unit: four feelings of one run are not four independent trials.
 * They are averaged, which takes out some of the scatter of single ratings, and the scatter between runs is left
 * for the model to estimate. A feeling that was not rated in every run would shift the average of those runs by
 * its own level, so then run and feeling effects are fitted together (a two-way additive layout); with complete
 * ratings both ways give the same differences.
 */
import { leastSquares } from './least-squares.ts';
import type { RiddenRun } from './trial.ts';

/**
 * One score a run, on the 1–7 scale, in the order given.
 *
 * @returns null when the runs cannot be compared, because they share no rated feeling, not even in a chain
 */
export function runScores(runs: readonly RiddenRun[]): number[] | null {
  const feelings = [...new Set(runs.flatMap((run) => Object.keys(run.ratings)))].sort();
  if (feelings.length === 0) return null;
  const complete = runs.every((run) => feelings.every((feeling) => run.ratings[feeling] !== undefined));
  return complete ? runs.map((run) => mean(Object.values(run.ratings))) : twoWay(runs, feelings);
}

function twoWay(runs: readonly RiddenRun[], feelings: readonly string[]): number[] | null {
  const rows: number[][] = [];
  const values: number[] = [];
  runs.forEach((run, r) => {
    feelings.forEach((feeling, f) => {
      const rating = run.ratings[feeling];
      if (rating === undefined) return;
      rows.push([...runs.map((_, i) => (i === r ? 1 : 0)), ...sumToZero(feelings.length, f)]);
      values.push(rating);
    });
  });
  const fit = leastSquares(rows, values);
  return fit === null ? null : fit.coefficients.slice(0, runs.length);
}

/** Effect coding: the feelings' levels add up to nothing, so a run's coefficient is its level on the scale. */
function sumToZero(count: number, index: number): number[] {
  return Array.from({ length: count - 1 }, (_, j) => (index === count - 1 ? -1 : index === j ? 1 : 0));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
