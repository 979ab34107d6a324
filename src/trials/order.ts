/**
 * The best order for the runs there are.
 *
 * The score of a run is level + drift·run + effect of its arm + noise of variance σ². With the run numbers centred
 * (Σt = 0), taking level and drift out leaves for the effects against the reference the information matrix
 * S[i][j] = n_i·δ_ij − n_i·n_j/n − T_i·T_j/Σt², n_i the runs of arm i and T_i the sum of their run numbers; the
 * variance of a comparison is read off σ²·S⁻¹. All orders that begin with the reference are compared, and the one
 * with the least variance is taken. Of equal ones that whose beginning tells most is taken, because a trial may be
 * broken off after three runs or four.
 */
import type { ArmName } from './trial.ts';

/**
 * Variance of the comparison in units of σ², the sum over all pairs of arms where there are more than two.
 * Infinity while drift and effects cannot be told apart.
 * @param arms the arms beside the reference, one or two
 */
export function varianceOf(order: readonly ArmName[], arms: readonly ArmName[]): number {
  const n = order.length;
  const middle = (n - 1) / 2;
  let squares = 0;
  const count = arms.map(() => 0);
  const sum = arms.map(() => 0);
  order.forEach((name, run) => {
    squares += (run - middle) ** 2;
    const arm = arms.indexOf(name);
    if (arm < 0) return;
    count[arm]! += 1;
    sum[arm]! += run - middle;
  });
  const info = (i: number, j: number): number =>
    (i === j ? count[i]! : 0) - (count[i]! * count[j]!) / n - (sum[i]! * sum[j]!) / squares;
  if (squares === 0) return Infinity;
  const a = info(0, 0);
  if (arms.length === 1) return a < TINY ? Infinity : 1 / a;
  const b = info(1, 1);
  const c = info(0, 1);
  const det = a * b - c * c;
  // (b + a + (a + b + 2c)) / det: both arms against the reference, and against each other.
  return det < TINY ? Infinity : (2 * (a + b) + 2 * c) / det;
}

/** Below this an information is rounding noise: the real ones are ratios of small whole numbers. */
const TINY = 1e-9;

/**
 * The runs that go on best from those already ridden.
 * @param done arms of the judged runs so far; the first of all is always the reference
 * @param arms the arms beside the reference, the advised one first
 * @param more how many runs are to follow; at most about 8, because every order is looked at
 */
export function bestRest(done: readonly ArmName[], arms: readonly ArmName[], more: number): ArmName[] {
  const key = `${done.join()}/${arms.join()}/${more}`;
  let best = known.get(key);
  if (best === undefined) {
    best = search(done, arms, more);
    known.set(key, best);
  }
  return [...best];
}

const known = new Map<string, readonly ArmName[]>();

function search(done: readonly ArmName[], arms: readonly ArmName[], more: number): ArmName[] {
  const names: readonly ArmName[] = ['reference', ...arms];
  let best: ArmName[] = [];
  let bestKey: number[] | undefined;
  const walk = (rest: ArmName[]): void => {
    if (rest.length === more) {
      const key = keyOf([...done, ...rest], arms, done.length);
      if (bestKey === undefined || isLess(key, bestKey)) {
        bestKey = key;
        best = rest;
      }
      return;
    }
    const first = done.length + rest.length === 0;
    for (const name of first ? names.slice(0, 1) : names) walk([...rest, name]);
  };
  walk([]);
  return best;
}

/** The variance at the end, then after each run before it, from the earliest on. */
function keyOf(order: readonly ArmName[], arms: readonly ArmName[], from: number): number[] {
  const key = [varianceOf(order, arms)];
  for (let n = Math.max(3, from + 1); n < order.length; n++) key.push(varianceOf(order.slice(0, n), arms));
  // Rounded, so that the last bits of a sum never decide.
  return key.map((value) => (value === Infinity ? value : Math.round(value * 1e9)));
}

function isLess(one: readonly number[], other: readonly number[]): boolean {
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return one[i]! < other[i]!;
  return false;
}
