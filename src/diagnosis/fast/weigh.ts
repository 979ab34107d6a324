/**
 * Multiplies the factors of all answered groups into the weights of all sets, and sums them up.
 *
 * A group's factor is, for most sets, a product over the single causes they hold and over the pairs among these: it is
 * more than that only where three of the group's own causes meet. So every factor is split into one number a cause and
 * one a pair, which all go in along the walk from each set to its extensions, and a correction for the few sets where
 * more causes meet. The result is exact. A group so wide that three of its causes meet nearly everywhere is looked up
 * set by set instead, and so is one with a factor of zero.
 *
 * What it buys over `tests/support/plain/posterior.ts`, with the tables of `groups.ts`: 0.08 instead of 125 ms for six answers over 5,925
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

/** Numbers of a stretch of full sets, laid end to end: top, from, to, shift, its row in `rows` and in `both`, two places for sums. */
const STRETCH = 8;

function stretchesOf({ causes: n, topUp, topLast, stretches }: HypothesisSpace): Int32Array {
  const { top, from, to, shift } = stretches;
  const out = new Int32Array(top.length * STRETCH);
  for (let s = 0; s < top.length; s++) {
    const up = topUp[top[s]!]!;
    const c = topLast[top[s]!]!;
    const k = shift[s]!;
    out.set([top[s]!, from[s]!, to[s]!, k, up * n + k, c * n + k, c, up], s * STRETCH);
  }
  return out;
}

/** The tops stand in the order of the inner sets that they extend. */
function topsOf(inner: number, topUp: Int32Array): Int32Array {
  const out = new Int32Array(inner + 1);
  for (let t = 0; inner > 0 && t < topUp.length; t++) out[topUp[t]! + 1]!++;
  for (let i = 0; i < inner; i++) out[i + 1]! += out[i]!;
  return out;
}

/**
 * All working space is made here, once, and belongs to the function: not only to spare a case the making. The engine
 * compiles a loop over arrays that it knows to be always the same to half as many instructions, provided the loop is
 * short enough to be compiled into its caller; hence the small functions, and the local names for the arrays in them.
 */
export function weigher(space: HypothesisSpace, groups: readonly Group[]): Weigh {
  const { size, causes: n, parent, last, inner, innerOf, tops, topUp, topLast } = space;
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
  /** for each set one below full, the product over its causes and pairs */
  const base = new Float64Array(tops.length);
  /** where the sets one below full begin that extend each inner set, and where the last ones end */
  const topsFrom = topsOf(inner.length, topUp);
  const stretches = stretchesOf(space);
  /** for each cause, and in the last place for none, the weight of the sets that hold it */
  const sums = new Float64Array(n + 1);
  /** class of every set and factor of every class, of a group looked up set by set */
  const classOf = new Int32Array(size);
  const factor = new Float64Array(size);

  /** Four at a time: half of a short loop is its own counting. */
  const timesInto = (out: Float64Array, scale: number): void => {
    const weights = work;
    const most = weights.length & ~3;
    let h = 0;
    for (; h < most; h += 4) {
      out[h] = weights[h]! * scale;
      out[h + 1] = weights[h + 1]! * scale;
      out[h + 2] = weights[h + 2]! * scale;
      out[h + 3] = weights[h + 3]! * scale;
    }
    for (; h < weights.length; h++) out[h] = weights[h]! * scale;
  };

  const timesFactor = (): void => {
    const weights = work;
    const classes = classOf;
    const factors = factor;
    const most = weights.length & ~3;
    let h = 0;
    for (; h < most; h += 4) {
      weights[h]! *= factors[classes[h]!]!;
      weights[h + 1]! *= factors[classes[h + 1]!]!;
      weights[h + 2]! *= factors[classes[h + 2]!]!;
      weights[h + 3]! *= factors[classes[h + 3]!]!;
    }
    for (; h < weights.length; h++) weights[h]! *= factors[classes[h]!]!;
  };

  const timesRest = (sets: Int32Array, rest: Float64Array): void => {
    const weights = work;
    for (let i = 0; i < sets.length; i++) weights[sets[i]!]! *= rest[i]!;
  };

  /** One row of `rows` from its parent's, from a cause on. */
  const timesRow = (to: number, up: number, pair: number, begin: number): void => {
    const singles = rows;
    const pairs = both;
    for (let k = begin; k < n; k++) singles[(to + k) | 0] = singles[(up + k) | 0]! * pairs[(pair + k) | 0]!;
  };

  /** The walk below over the sets that come from one inner set and are one below full. */
  const walkTops = (i: number, begin: number, end: number): void => {
    const weights = work;
    const singles = rows;
    const held = sums;
    const bases = base;
    const sets = tops;
    const lasts = topLast;
    const above = product[i]!;
    const row = i * n;
    let total = sum[i]!;
    for (let t = begin; t < end; t++) {
      const h = sets[t]!;
      const c = lasts[t]!;
      const b = above * singles[(row + c) | 0]!;
      bases[t] = b;
      const w = weights[h]! * b;
      weights[h] = w;
      held[c]! += w;
      total += w;
    }
    sum[i] = total;
  };

  /** The same over the full sets, which are nearly all. */
  const walkFull = (): void => {
    const weights = work;
    const singles = rows;
    const pairs = both;
    const held = sums;
    const bases = base;
    const all = sum;
    const places = stretches;
    for (let s = 0; s < places.length; s += STRETCH) {
      const b = bases[places[s]!]!;
      const end = places[s + 2]!;
      const k = places[s + 3]!;
      const row = places[s + 4]!;
      const pair = places[s + 5]!;
      let total = 0;
      for (let h = places[s + 1]!; h < end; h++) {
        const w = weights[h]! * b * singles[(row + h) | 0]! * pairs[(pair + h) | 0]!;
        weights[h] = w;
        held[(k + h) | 0]! += w;
        total += w;
      }
      held[places[s + 6]!]! += total;
      all[places[s + 7]!]! += total;
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
        timesRow(i * n, up * n, c * n, c + 1);
      }
      work[h]! *= product[i]!;
      sum[i] = work[h]!;
    }
    if (inner.length === 0) {
      // One cause at most: the empty set itself is one below full.
      base[0] = 1;
      sum[0] = work[0]!;
    }
    for (let i = 0; i < inner.length; i++) walkTops(i, topsFrom[i]!, topsFrom[i + 1]!);
    walkFull();
    for (let i = inner.length - 1; i > 0; i--) {
      const h = inner[i]!;
      sums[last[h]!]! += sum[i]!;
      sum[innerOf[parent[h]!]!]! += sum[i]!;
    }
  };

  /** The pairs of one cause of a group with those after it. */
  const takePairs = (own: Int16Array, pair: Float64Array, i: number): void => {
    const pairs = both;
    const row = own[i]! * n;
    const at = i * own.length;
    for (let j = i + 1; j < own.length; j++) pairs[(row + own[j]!) | 0]! *= pair[(at + j) | 0]!;
  };

  /** Takes a group's singles and pairs in. */
  const take = (f: GroupFactor, { single, pair }: Parts): void => {
    const { own } = groups[f.group]!.classes;
    for (let i = 0; i < own.length; i++) {
      each[own[i]!]! *= single[i]!;
      takePairs(own, pair, i);
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
