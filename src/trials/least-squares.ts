/** Linear least squares by Householder QR: the one numerical engine under every trial. */
import { Matrix, QrDecomposition } from 'ml-matrix';

export interface LeastSquares {
  readonly coefficients: readonly number[];
  /** (XᵀX)⁻¹: times the noise variance it is the covariance of the coefficients */
  readonly unscaled: readonly (readonly number[])[];
  readonly residualSumOfSquares: number;
  /** rows − columns */
  readonly df: number;
}

/** Below this share of its own length, what is left of a column after the others is rounding noise. */
const DEPENDENT = 1e-13;

/**
 * Fits y ≈ X·b.
 *
 * Columns are scaled to length 1 first: with clicks, run numbers and powers of them in one matrix, this keeps
 * the condition number (and the loss of digits) as small as scaling can.
 *
 * @param rows X, a row an observation
 * @param y as many values as there are rows
 * @returns null when the columns cannot be told apart, or there are fewer rows than columns
 */
export function leastSquares(
  rows: readonly (readonly number[])[],
  y: readonly number[],
): LeastSquares | null {
  const n = rows.length;
  const p = rows[0]?.length ?? 0;
  if (n !== y.length || p === 0)
    throw new RangeError('leastSquares: as many values as rows, at least one column');
  if (n < p) return null;
  const lengths = columnLengths(rows, p);
  if (lengths.some((length) => length === 0)) return null;
  const x = new Matrix(rows.map((row) => row.map((value, j) => value / lengths[j]!)));
  const qr = new QrDecomposition(x);
  const r = qr.upperTriangularMatrix;
  for (let j = 0; j < p; j++) if (Math.abs(r.get(j, j)) < DEPENDENT) return null;

  const scaled = qr.solve(Matrix.columnVector([...y]));
  const coefficients = lengths.map((length, j) => scaled.get(j, 0) / length);
  const rss = rows.reduce((sum, row, i) => {
    const left = y[i]! - row.reduce((dot, value, j) => dot + value * coefficients[j]!, 0);
    return sum + left * left;
  }, 0);
  return { coefficients, unscaled: inverseGram(r, lengths), residualSumOfSquares: rss, df: n - p };
}

function columnLengths(rows: readonly (readonly number[])[], p: number): number[] {
  return Array.from({ length: p }, (_, j) => Math.hypot(...rows.map((row) => row[j]!)));
}

/** (XᵀX)⁻¹ = R⁻¹·R⁻ᵀ, with the column scaling undone. */
function inverseGram(r: Matrix, lengths: readonly number[]): number[][] {
  const p = lengths.length;
  const inverse = Matrix.zeros(p, p);
  for (let j = 0; j < p; j++) {
    inverse.set(j, j, 1 / r.get(j, j));
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0;
      for (let k = i + 1; k <= j; k++) sum += r.get(i, k) * inverse.get(k, j);
      inverse.set(i, j, -sum / r.get(i, i));
    }
  }
  const gram = inverse.mmul(inverse.transpose());
  return lengths.map((a, i) => lengths.map((b, j) => gram.get(i, j) / (a * b)));
}
