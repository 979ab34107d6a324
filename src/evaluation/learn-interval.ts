/**
 * How far an estimate may be off: the inverse of the information in the cases' own scores plus the penalty.
 *
 * The score of a case is the slope of its log likelihood in every log odds; by Fisher's identity it is the expected
 * hits minus the expected tosses times the strength. The sum of the scores' outer products estimates the information
 * (Berndt, Hall, Hall & Hausman 1974, from memory); the penalty adds its own curvature. All strengths and priors go in
 * together, so that one that could stand in for another widens both intervals.
 */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Model } from '../diagnosis/model.ts';
import { countAnswers, observer, type Counts, type Seen, type StrengthTable } from './learn-count.ts';
import type { PriorRule } from './learn-fit.ts';
import type { Observation } from './learn-observe.ts';

/** In one case's own score, sets of causes less likely than this are left out: they hardly turn it, and are thousands. */
const FAINT = 1e-5;

export interface Spreads {
  /** standard deviation of each log odds */
  readonly strength: Float64Array;
  readonly prior: Float64Array;
  /** expected counts over all cases */
  readonly counts: Counts;
  readonly seen: readonly Pick<Seen, 'causes'>[];
}

export function spreads(
  model: Model,
  table: StrengthTable,
  values: readonly number[],
  rules: readonly PriorRule[],
  observations: readonly Observation[],
  weights: { readonly strength: Float64Array; readonly prior: Float64Array },
): Spreads {
  const n = table.size;
  const read = observer(model);
  const total: Counts = { tosses: new Float64Array(n), hits: new Float64Array(n) };
  const own: Counts = { tosses: new Float64Array(n), hits: new Float64Array(n) };
  const scores: { at: number; slope: number }[][] = [];
  const seen: Pick<Seen, 'causes'>[] = [];
  for (const o of observations) {
    const s = read(o);
    own.tosses.fill(0);
    own.hits.fill(0);
    for (const g of s.genuine) countAnswers(model, table, values, g, own, FAINT);
    const score: { at: number; slope: number }[] = [];
    for (let k = 0; k < n; k++) {
      if (own.tosses[k] === 0) continue;
      total.tosses[k]! += own.tosses[k]!;
      total.hits[k]! += own.hits[k]!;
      score.push({ at: k, slope: own.hits[k]! - own.tosses[k]! * values[k]! });
    }
    const { causes } = s;
    if (causes !== undefined)
      rules.forEach((rule, r) => {
        const slope = rule.causes.reduce((sum, c) => sum + causes.after[c]! - causes.before[c]!, 0);
        score.push({ at: n + r, slope });
      });
    scores.push(score);
    seen.push({ causes });
  }
  // A strength that no case touches stands alone: its interval is the penalty's.
  const penalty = (at: number): number =>
    at < n
      ? weights.strength[at]! * values[at]! * (1 - values[at]!)
      : rules[at - n]!.causes.reduce((sum, c) => {
          const p = model.odds[c]! / (1 + model.odds[c]!);
          return sum + weights.prior[at - n]! * p * (1 - p);
        }, 0);
  const touched = [...new Set(scores.flatMap((s) => s.map((x) => x.at)))].sort((a, b) => a - b);
  const place = new Map(touched.map((at, i) => [at, i]));
  const wide = Float64Array.from({ length: n + rules.length }, (_, at) => 1 / Math.sqrt(penalty(at)));
  if (touched.length > 0) {
    const information = Matrix.diag(touched.map(penalty));
    for (const score of scores)
      for (const a of score) {
        const row = place.get(a.at)!;
        for (const b of score) {
          const column = place.get(b.at)!;
          information.set(row, column, information.get(row, column) + a.slope * b.slope);
        }
      }
    const variance = inverseDiagonal(information);
    touched.forEach((at, i) => (wide[at] = Math.sqrt(variance[i]!)));
  }
  return { strength: wide.slice(0, n), prior: wide.slice(n), counts: total, seen };
}

/** The diagonal of the inverse of a positive definite matrix: Σ_k (L⁻¹)²_ki, with L its Cholesky factor. */
function inverseDiagonal(matrix: Matrix): Float64Array {
  const lower = new CholeskyDecomposition(matrix).lowerTriangularMatrix.to2DArray();
  const n = lower.length;
  const out = new Float64Array(n);
  const column = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    for (let k = i; k < n; k++) {
      const row = lower[k]!;
      let sum = k === i ? 1 : 0;
      for (let j = i; j < k; j++) sum -= row[j]! * column[j]!;
      column[k] = sum / row[k]!;
      out[i]! += column[k]! ** 2;
    }
  }
  return out;
}
