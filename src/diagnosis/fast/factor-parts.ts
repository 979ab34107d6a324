/** A group's factor split into one number a cause, one a pair, and a correction where three of its causes meet. */
import type { Group } from '../groups.ts';
import type { HypothesisSpace } from '../hypotheses.ts';

export interface Parts {
  /** for each own cause, the factor over that of none */
  readonly single: Float64Array;
  /** [own × own] for each pair, the lower cause first, the factor over the product of its two causes */
  readonly pair: Float64Array;
  /** for each of the group's crowded sets, the factor over the product of its causes and pairs */
  readonly rest: Float64Array;
}

/** A group that would need a correction in more than this share of all sets is looked up instead. */
const WIDE = 0.4;

/** Told without a look at every set: each class of three or more causes is a set of its own. */
export function isTooWide({ classes: { crowded } }: Group, size: number): boolean {
  return crowded > WIDE * size;
}

/**
 * Splits a factor, exactly: the factor of none times all parts of a class is its factor again.
 * @param factor of each class of the group
 * @returns null for a group too wide, or a factor of zero that has no parts
 */
export function partsOf({ size, most }: HypothesisSpace, group: Group, factor: Float64Array): Parts | null {
  const { own, singles, pairs } = group.classes;
  const n = own.length;
  const none = factor[0]!;
  if (none === 0 || isTooWide(group, size)) return null;
  const { sets, classes, members } = group.crowded();
  if (sets.length > WIDE * size) return null;
  const single = new Float64Array(n);
  const pair = new Float64Array(n * n).fill(1);
  if (!takeSingles(single, singles, factor) || !takePairs(pair, pairs, factor, single)) return null;
  const rest = new Float64Array(sets.length);
  takeRest(rest, factor, classes, { single, pair, members, most });
  return { single, pair, rest };
}

/*
 * Loops by themselves, as in `weigh.ts`. They say whether all parts can be had: a factor of zero has none.
 */

function takeSingles(single: Float64Array, singles: Int32Array, factor: Float64Array): boolean {
  const none = factor[0]!;
  for (let i = 0; i < single.length; i++) {
    const f = factor[singles[i]!]!;
    if (f === 0) return false;
    single[i] = f / none;
  }
  return true;
}

function takePairs(
  pair: Float64Array,
  pairs: Int32Array,
  factor: Float64Array,
  single: Float64Array,
): boolean {
  const n = single.length;
  const none = factor[0]!;
  for (let i = 0, at = 0; i < n; i++) {
    for (let j = 0; j < n; j++, at++) {
      const c = pairs[at]!;
      if (c === 0) continue;
      const f = factor[c]!;
      if (f === 0) return false;
      pair[at] = f / (none * single[i]! * single[j]!);
    }
  }
  return true;
}

/** What is left of each crowded set once its causes, alone and in pairs, are taken out. */
function takeRest(
  rest: Float64Array,
  factor: Float64Array,
  classes: Int32Array,
  {
    single,
    pair,
    members,
    most,
  }: Pick<Parts, 'single' | 'pair'> & { readonly members: Int16Array; readonly most: number },
): void {
  const n = single.length;
  for (let s = 0, from = 0; s < rest.length; s++, from += most) {
    let product = factor[0]!;
    for (let a = from; a < from + most && members[a]! >= 0; a++) {
      product *= single[members[a]!]!;
      for (let b = from; b < a; b++) product *= pair[members[b]! * n + members[a]!]!;
    }
    rest[s] = factor[classes[s]!]! / product;
  }
}
