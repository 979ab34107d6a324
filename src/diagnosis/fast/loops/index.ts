/**
 * The loops of `weigh.ts` over all sets, as `sets-machine.ts` runs them. They are TypeScript that the compiler of machine code
 * reads as it stands, under the same rules as those of the model (`physics/machine/loops/numbers.ts`).
 */
import type { Counts, f64, i32, Numbers } from '../../../physics/machine/loops/numbers.ts';

export { aboveMean, between, mix, scatter, sums, timesColumn, timesShare, turn } from './classes.ts';
export { takePairs, takeRest, takeSingles } from './parts.ts';
export { addShares, hangAmongSeveral, hangByCount, missEach } from './strengths.ts';

/** Numbers of a stretch of full sets, laid end to end: top, from, to, shift, its row in `rows` and in `both`, two places for sums. */
export const STRETCH: i32 = 8;

/** Takes a group's singles and pairs into those of all causes. */
export function take(
  each: Numbers,
  both: Numbers,
  causes: i32,
  own: Counts,
  count: i32,
  single: Numbers,
  pair: Numbers,
): void {
  for (let i: i32 = 0; i < count; i++) {
    const cause = own[i]!;
    each[cause] = each[cause]! * single[i]!;
    const row = cause * causes;
    const at = i * count;
    for (let j: i32 = i + 1; j < count; j++) {
      const place = row + own[j]!;
      both[place] = both[place]! * pair[at + j]!;
    }
  }
}

export function timesRest(weights: Numbers, sets: Counts, count: i32, rest: Numbers): void {
  for (let i: i32 = 0; i < count; i++) {
    const set = sets[i]!;
    weights[set] = weights[set]! * rest[i]!;
  }
}

export function timesFactor(weights: Numbers, size: i32, classes: Counts, factors: Numbers): void {
  for (let h: i32 = 0; h < size; h++) weights[h] = weights[h]! * factors[classes[h]!]!;
}

export function scale(weights: Numbers, size: i32, by: f64): void {
  for (let h: i32 = 0; h < size; h++) weights[h] = weights[h]! * by;
}

/** The inner sets, from each to those that extend it: their own weight, and what their causes multiply by. */
export function walkInner(
  weights: Numbers,
  product: Numbers,
  sum: Numbers,
  rows: Numbers,
  both: Numbers,
  causes: i32,
  inner: Counts,
  count: i32,
  ups: Counts,
  lasts: Counts,
): void {
  for (let i: i32 = 0; i < count; i++) {
    const set = inner[i]!;
    if (set > 0) {
      const up = ups[i]!;
      const cause = lasts[i]!;
      product[i] = product[up]! * rows[up * causes + cause]!;
      // One row of `rows` from its parent's.
      const to = i * causes;
      const from = up * causes;
      const pair = cause * causes;
      for (let k: i32 = cause + 1; k < causes; k++) rows[to + k] = rows[from + k]! * both[pair + k]!;
    }
    const weight = weights[set]! * product[i]!;
    weights[set] = weight;
    sum[i] = weight;
  }
}

/** The sets one below full, those that come from one inner set one after another. */
export function walkTops(
  weights: Numbers,
  product: Numbers,
  sum: Numbers,
  base: Numbers,
  sums: Numbers,
  rows: Numbers,
  causes: i32,
  count: i32,
  topsFrom: Counts,
  tops: Counts,
  topLast: Counts,
): void {
  for (let i: i32 = 0; i < count; i++) {
    const above = product[i]!;
    const row = i * causes;
    let total = sum[i]!;
    const end = topsFrom[i + 1]!;
    for (let t = topsFrom[i]!; t < end; t++) {
      const set = tops[t]!;
      const cause = topLast[t]!;
      const b = above * rows[row + cause]!;
      base[t] = b;
      const weight = weights[set]! * b;
      weights[set] = weight;
      sums[cause] = sums[cause]! + weight;
      total += weight;
    }
    sum[i] = total;
  }
}

/** The full sets, which are nearly all. */
export function walkFull(
  weights: Numbers,
  sum: Numbers,
  base: Numbers,
  sums: Numbers,
  rows: Numbers,
  both: Numbers,
  stretches: Counts,
  length: i32,
): void {
  for (let s: i32 = 0; s < length; s += STRETCH) {
    const b = base[stretches[s]!]!;
    const end = stretches[s + 2]!;
    const shift = stretches[s + 3]!;
    const row = stretches[s + 4]!;
    const pair = stretches[s + 5]!;
    let total: f64 = 0;
    for (let h = stretches[s + 1]!; h < end; h++) {
      const weight = weights[h]! * b * rows[row + h]! * both[pair + h]!;
      weights[h] = weight;
      sums[shift + h] = sums[shift + h]! + weight;
      total += weight;
    }
    const cause = stretches[s + 6]!;
    sums[cause] = sums[cause]! + total;
    const up = stretches[s + 7]!;
    sum[up] = sum[up]! + total;
  }
}

/** Back from the inner sets to those they extend, whose sums take in theirs. */
export function sumUp(sum: Numbers, sums: Numbers, count: i32, ups: Counts, lasts: Counts): void {
  for (let i: i32 = count - 1; i > 0; i--) {
    const cause = lasts[i]!;
    const up = ups[i]!;
    sums[cause] = sums[cause]! + sum[i]!;
    sum[up] = sum[up]! + sum[i]!;
  }
}

/** [cause × cause] adds every triple's weight to its three pairs; the full sets of a stretch share all causes but the last. */
export function countPairs(
  pairs: Numbers,
  weights: Numbers,
  causes: i32,
  first: Counts,
  second: Counts,
  from: Counts,
  to: Counts,
  shift: Counts,
  length: i32,
): void {
  for (let s: i32 = 0; s < length; s++) {
    const i = first[s]! * causes;
    const j = second[s]!;
    const withI = i + shift[s]!;
    const withJ = j * causes + shift[s]!;
    const end = to[s]!;
    let sum: f64 = 0;
    for (let h = from[s]!; h < end; h++) {
      const w = weights[h]!;
      pairs[withI + h] = pairs[withI + h]! + w;
      pairs[withJ + h] = pairs[withJ + h]! + w;
      sum += w;
    }
    pairs[i + j] = pairs[i + j]! + sum;
  }
}

/** The weight of every set before anything was said: that of the set without its last cause, times the odds of that. */
export function priorOf(out: Numbers, odds: Numbers, parents: Counts, lasts: Counts, size: i32): void {
  out[0] = 1;
  for (let h: i32 = 1; h < size; h++) out[h] = out[parents[h]!]! * odds[lasts[h]!]!;
}
