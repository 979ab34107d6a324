/**
 * Paired comparisons with an order effect (Bradley–Terry, with a constant for whichever came second): how much of
 * "the later run was better" is the rider's habit and not the bike.
 */
import { leastSquares, type LeastSquares } from './least-squares.ts';

/** How often the second of two things was preferred to the first. */
export interface Comparison {
  readonly first: string;
  readonly second: string;
  readonly secondWins: number;
  readonly firstWins: number;
}

export interface Preference {
  /** log-odds of each thing against the last in order of name, which has 0 */
  readonly ability: Readonly<Record<string, number>>;
  /** log-odds of the second one being preferred when both are equal, and its standard error */
  readonly order: { readonly estimate: number; readonly error: number };
  readonly deviance: number;
}

export interface PreferenceOptions {
  /** false fits without the order effect */
  readonly order?: boolean;
  /** sd of a normal prior on every coefficient, log-odds; keeps few comparisons finite. Infinity: none */
  readonly priorSd?: number;
}

const STEPS = 50;
const CLOSE = 1e-10;

/**
 * Logistic regression by iterated weighted least squares.
 *
 * @returns null when the comparisons do not tie the things together, or do not settle (all one way, without a prior)
 */
export function fitPreference(
  comparisons: readonly Comparison[],
  { order = true, priorSd = Infinity }: PreferenceOptions = {},
): Preference | null {
  const names = [...new Set(comparisons.flatMap(({ first, second }) => [first, second]))].sort();
  const free = names.slice(0, -1);
  const used = comparisons.filter(({ secondWins, firstWins }) => secondWins + firstWins > 0);
  const rows = used.map(({ first, second }) => [
    ...(order ? [1] : []),
    ...free.map((name) => (name === second ? 1 : name === first ? -1 : 0)),
  ]);
  const columns = free.length + (order ? 1 : 0);
  if (columns === 0 || rows.length === 0) return null;
  let b: readonly number[] = Array.from({ length: columns }, () => 0);
  for (let step = 0; step < STEPS; step++) {
    const fit = weightedStep(rows, used, b, priorSd);
    if (fit === null) return null;
    const moved = Math.max(...fit.coefficients.map((value, j) => Math.abs(value - b[j]!)));
    b = fit.coefficients;
    if (moved < CLOSE) return result(rows, used, fit, names, order);
  }
  return null;
}

function weightedStep(
  rows: readonly (readonly number[])[],
  used: readonly Comparison[],
  b: readonly number[],
  priorSd: number,
): LeastSquares | null {
  const x: number[][] = [];
  const y: number[] = [];
  rows.forEach((row, i) => {
    const { secondWins, firstWins } = used[i]!;
    const n = secondWins + firstWins;
    const p = logistic(dot(row, b));
    const weight = Math.sqrt(Math.max(n * p * (1 - p), 1e-12));
    x.push(row.map((value) => value * weight));
    y.push(weight * (dot(row, b) + (secondWins - n * p) / (weight * weight)));
  });
  if (Number.isFinite(priorSd)) {
    b.forEach((_, j) => {
      x.push(b.map((__, k) => (k === j ? 1 / priorSd : 0)));
      y.push(0);
    });
  }
  return leastSquares(x, y);
}

function result(
  rows: readonly (readonly number[])[],
  used: readonly Comparison[],
  fit: LeastSquares,
  names: readonly string[],
  order: boolean,
): Preference {
  const abilities = order ? fit.coefficients.slice(1) : fit.coefficients;
  const deviance = rows.reduce((sum, row, i) => {
    const { secondWins, firstWins } = used[i]!;
    const n = secondWins + firstWins;
    const p = logistic(dot(row, fit.coefficients));
    return sum + 2 * (excess(secondWins, n * p) + excess(firstWins, n * (1 - p)));
  }, 0);
  return {
    ability: Object.fromEntries(names.map((name, j) => [name, abilities[j] ?? 0])),
    order: order
      ? { estimate: fit.coefficients[0]!, error: Math.sqrt(fit.unscaled[0]![0]!) }
      : { estimate: 0, error: 0 },
    deviance,
  };
}

function excess(seen: number, expected: number): number {
  return seen === 0 ? 0 : seen * Math.log(seen / expected);
}

function dot(row: readonly number[], b: readonly number[]): number {
  return row.reduce((sum, value, j) => sum + value * b[j]!, 0);
}

function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}
