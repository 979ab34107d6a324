/**
 * Multiplies the factors of all answered groups into the weights of all sets, and sums them up.
 *
 * A group's factor is, for most sets, a product over the single causes they hold and over the pairs among these: it is
 * more than that only where three of the group's own causes meet. So every factor is split into one number a cause and
 * one a pair, which all go in along the walk from each set to its extensions, and a correction for the few sets where
 * more causes meet. The result is exact. A group so wide that three of its causes meet nearly everywhere is looked up
 * set by set instead, and so is one with a factor of zero.
 *
 * What it buys over `../plain/posterior.ts`, with the tables of `groups.ts`: 0.08 instead of 125 ms for six answers over 5,925
 * sets of 67 causes, the same to 3e-15 (measured on one machine, best of three).
 */
import { partsOf, type Parts } from './factor-parts.ts';
import type { Group } from '../groups.ts';
import type { HypothesisSpace } from '../hypotheses.ts';

/** One group's likelihood of its answers, for each of its classes, and the same split into parts. */
export interface GroupFactor {
  readonly group: number;
  readonly factor: Float64Array;
  /** whether it is kept for other cases with the same answer */
  readonly kept?: boolean;
  /** filled in when first needed; null when the factor cannot be split */
  parts?: Parts | null;
}

/**
 * @param out becomes the normalised prior × Π factors
 * @param causes becomes the probability of every cause
 * @returns the natural logarithm of what they were divided by; not a number above -Infinity when all weights are zero
 */
export type Weigh = (
  prior: Float64Array,
  factors: readonly GroupFactor[],
  out: Float64Array,
  causes: Float64Array,
) => number;

/** A kept factor that needs a correction in more than this share is remembered as multiplied into the prior. */
const HEAVY = 0.05;
/** Bytes for what is remembered so. */
const MOST_BYTES = 12e6;

/** A prior, or a prior times the heavy parts of some kept factors, which most cases share. */
interface Start {
  readonly weights: Float64Array;
  /** the same with one factor more */
  readonly further: Map<GroupFactor, Start>;
}

/**
 * All working space is made here, once, and belongs to the function: not only to spare a case the making. The engine
 * compiles a loop over arrays that it knows to be always the same to half as many instructions, provided the loop is
 * short enough to be compiled into its caller; hence the small functions, and the local names for the arrays in them.
 */
export function weigher(space: HypothesisSpace, groups: readonly Group[]): Weigh {
  const { size, causes: n, parent, last, inner, innerOf, tops, topUp, topLast } = space;
  const { top, from, to, shift } = space.stretches;
  const work = new Float64Array(size);
  /** for each cause, what it multiplies a set's weight by */
  const each = new Float64Array(n);
  /** [cause × cause] the same for a pair, the lower cause first; a last row of ones stands for no lower cause */
  const both = new Float64Array((n + 1) * n);
  /** [inner set × cause] each, times both with every cause of that set */
  const rows = new Float64Array(Math.max(1, inner.length) * n);
  /** for each inner set, the product over its causes and pairs */
  const product = new Float64Array(Math.max(1, inner.length));
  /** for each inner set, the weight of the sets that extend it, itself included */
  const sum = new Float64Array(Math.max(1, inner.length));
  /** for each cause, and in the last place for none, the weight of the sets that hold it */
  const sums = new Float64Array(n + 1);
  /** class of every set and factor of every class, of a group looked up set by set */
  const classOf = new Int32Array(size);
  const factor = new Float64Array(size);

  const timesInto = (out: Float64Array, scale: number): void => {
    const weights = work;
    for (let h = 0; h < weights.length; h++) out[h] = weights[h]! * scale;
  };

  const timesFactor = (): void => {
    const weights = work;
    const classes = classOf;
    const factors = factor;
    for (let h = 0; h < weights.length; h++) weights[h]! *= factors[classes[h]!]!;
  };

  const timesRest = (sets: Int32Array, rest: Float64Array): void => {
    const weights = work;
    for (let i = 0; i < sets.length; i++) weights[sets[i]!]! *= rest[i]!;
  };

  /** The walk below over the full sets, which are nearly all. */
  const walkFull = (): void => {
    const weights = work;
    const singles = rows;
    const pairs = both;
    const held = sums;
    for (let s = 0; s < top.length; s++) {
      const t = top[s]!;
      const up = topUp[t]!;
      const c = topLast[t]!;
      const base = c === n ? 1 : product[up]! * singles[up * n + c]!;
      const k = shift[s]!;
      const row = up * n + k;
      const pair = c * n + k;
      const end = to[s]!;
      let total = 0;
      for (let h = from[s]!; h < end; h++) {
        const w = weights[h]! * base * singles[row + h]! * pairs[pair + h]!;
        weights[h] = w;
        held[k + h]! += w;
        total += w;
      }
      held[c]! += total;
      sum[up]! += total;
    }
  };

  /**
   * work[h] *= Π each · Π both over the causes and pairs of h, from each set to its extensions.
   * Summed up on the way, because reading the weights once more would cost as much again.
   */
  const walk = (): void => {
    sums.fill(0);
    sum.fill(0);
    product[0] = 1;
    rows.set(each);
    for (let i = 0; i < inner.length; i++) {
      const h = inner[i]!;
      if (h > 0) {
        const up = innerOf[parent[h]!]!;
        const c = last[h]!;
        product[i] = product[up]! * rows[up * n + c]!;
        for (let k = c + 1; k < n; k++) rows[i * n + k] = rows[up * n + k]! * both[c * n + k]!;
      }
      work[h]! *= product[i]!;
      sum[i] = work[h]!;
    }
    for (let t = 0; t < tops.length; t++) {
      const h = tops[t]!;
      const up = topUp[t]!;
      const c = topLast[t]!;
      const w = work[h]! * (c === n ? 1 : product[up]! * rows[up * n + c]!);
      work[h] = w;
      sums[c]! += w;
      sum[up]! += w;
    }
    walkFull();
    for (let i = inner.length - 1; i > 0; i--) {
      const h = inner[i]!;
      sums[last[h]!]! += sum[i]!;
      sum[innerOf[parent[h]!]!]! += sum[i]!;
    }
  };

  /** Takes a group's singles and pairs in. */
  const take = (f: GroupFactor, { single, pair }: Parts): void => {
    const { own } = groups[f.group]!.classes;
    for (let i = 0; i < own.length; i++) {
      const row = own[i]! * n;
      each[own[i]!]! *= single[i]!;
      for (let j = i + 1, at = i * own.length; j < own.length; j++) both[row + own[j]!]! *= pair[at + j]!;
    }
  };

  /** Takes in what singles and pairs leave: the rest where causes meet, or all there is of a wide group. */
  const takeRest = (f: GroupFactor, parts: Parts | null): void => {
    const group = groups[f.group]!;
    if (parts !== null) timesRest(group.crowded().sets, parts.rest);
    else {
      classOf.set(group.classOf());
      factor.set(f.factor);
      timesFactor();
    }
  };

  const starts = new WeakMap<Float64Array, Start>();
  const seen = new WeakSet<Float64Array>();
  let room = Math.floor(MOST_BYTES / (8 * size));

  /** A prior is only remembered from its second case on: that of a case with trials never comes again. */
  const startOf = (prior: Float64Array): Start | undefined => {
    let start = starts.get(prior);
    if (start === undefined && seen.has(prior)) {
      start = { weights: prior, further: new Map() };
      starts.set(prior, start);
    }
    seen.add(prior);
    return start;
  };

  /** Puts the prior and the heavy parts into the weights; in the same order of products, remembered or not. */
  const begin = (prior: Float64Array, heavy: readonly GroupFactor[]): void => {
    let start = startOf(prior);
    let taken = 0;
    for (let next = start; next !== undefined && taken < heavy.length; taken++) {
      next = next.further.get(heavy[taken]!);
      if (next === undefined) break;
      start = next;
    }
    work.set(start?.weights ?? prior);
    for (const f of heavy.slice(taken)) {
      takeRest(f, f.parts!);
      if (start === undefined || f.kept !== true || room === 0) {
        start = undefined;
        continue;
      }
      room--;
      const next: Start = { weights: work.slice(), further: new Map() };
      start.further.set(f, next);
      start = next;
    }
  };

  return (prior, factors, out, causes) => {
    each.fill(1);
    both.fill(1);
    let shifted = 0;
    const heavy: GroupFactor[] = [];
    const light: GroupFactor[] = [];
    for (const f of factors) {
      const parts = f.parts === undefined ? (f.parts = partsOf(space, groups[f.group]!, f.factor)) : f.parts;
      if (parts !== null) {
        shifted += Math.log(f.factor[0]!);
        take(f, parts);
      }
      (parts === null || parts.rest.length > HEAVY * size ? heavy : light).push(f);
    }
    begin(prior, heavy);
    for (const f of light) takeRest(f, f.parts!);
    walk();
    const total = sum[0]!;
    timesInto(out, 1 / total);
    for (let c = 0; c < n; c++) causes[c] = sums[c]! / total;
    return Math.log(total) + shifted;
  };
}
