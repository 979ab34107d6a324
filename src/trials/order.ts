/**
 * The best order for the runs there are.
 *
 * The score of a run is level + drift·run + effect of its arm + noise of variance σ²/w, w its weight: 1, and less for a
 * run that warms up the rider. With the run numbers centred (Σw·t = 0), taking level and drift out leaves for the effects
 * against the reference the information matrix S[i][j] = n_i·δ_ij − n_i·n_j/Σw − T_i·T_j/Σw·t², n_i the weight of the runs
 * of arm i and T_i their Σw·t; the variance of a comparison is read off σ²·S⁻¹. All orders are compared, and the one with
 * the least variance is taken. Of equal ones that whose beginning tells most is taken, because a trial may be broken off
 * after four runs or five. Where nothing was ridden before, the first run is on the reference.
 */
import type { ArmName } from './trial.ts';

/**
 * Variance of the comparison in units of σ², the sum over all pairs of arms where there are more than two.
 * Infinity while drift and effects cannot be told apart.
 * @param arms the arms beside the reference, one or two
 * @param first weight of the first run, above 0
 */
export function varianceOf(order: readonly ArmName[], arms: readonly ArmName[], first = 1): number {
  const weight = (run: number): number => (run === 0 ? first : 1);
  const all = order.length - 1 + first;
  const middle = order.reduce((sum, _, run) => sum + weight(run) * run, 0) / all;
  let squares = 0;
  const count = arms.map(() => 0);
  const sum = arms.map(() => 0);
  order.forEach((name, run) => {
    const w = weight(run);
    squares += w * (run - middle) ** 2;
    const arm = arms.indexOf(name);
    if (arm < 0) return;
    count[arm]! += w;
    sum[arm]! += w * (run - middle);
  });
  const info = (i: number, j: number): number =>
    (i === j ? count[i]! : 0) - (count[i]! * count[j]!) / all - (sum[i]! * sum[j]!) / squares;
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
 * @param done arms of the judged runs so far, the warm-up first; the first of all is always the reference
 * @param arms the arms beside the reference, the advised one first
 * @param more how many runs are to follow; at most about 8, because every order is looked at
 * @param first weight of the first run of all
 */
export function bestRest(
  done: readonly ArmName[],
  arms: readonly ArmName[],
  more: number,
  first = 1,
): ArmName[] {
  const key = `${done.join()}/${arms.join()}/${more}/${first}`;
  let best = known.get(key);
  if (best === undefined) {
    best = search(done, arms, more, first);
    known.set(key, best);
  }
  return [...best];
}

const known = new Map<string, readonly ArmName[]>();

function search(done: readonly ArmName[], arms: readonly ArmName[], more: number, weight: number): ArmName[] {
  const names: readonly ArmName[] = ['reference', ...arms];
  let best: ArmName[] = [];
  let bestKey: number[] | undefined;
  const walk = (rest: ArmName[]): void => {
    if (rest.length === more) {
      const key = keyOf([...done, ...rest], arms, done.length, weight);
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
function keyOf(order: readonly ArmName[], arms: readonly ArmName[], from: number, first: number): number[] {
  const key = [varianceOf(order, arms, first)];
  for (let n = Math.max(3, from + 1); n < order.length; n++)
    key.push(varianceOf(order.slice(0, n), arms, first));
  // Rounded, so that the last bits of a sum never decide.
  return key.map((value) => (value === Infinity ? value : Math.round(value * 1e9)));
}

function isLess(one: readonly number[], other: readonly number[]): boolean {
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return one[i]! < other[i]!;
  return false;
}
