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
export function isTooWide({ classes: { sets, singles, pairs } }: Group, size: number): boolean {
  let few = 1 + singles.length;
  for (let i = 0; i < pairs.length; i++) if (pairs[i]! > 0) few++;
  return sets.length - few > WIDE * size;
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
  for (let i = 0; i < n; i++) {
    const f = factor[singles[i]!]!;
    if (f === 0) return null;
    single[i] = f / none;
  }
  const pair = new Float64Array(n * n).fill(1);
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const c = pairs[i * n + j]!;
      if (c === 0) continue;
      const f = factor[c]!;
      if (f === 0) return null;
      pair[i * n + j] = f / (none * single[i]! * single[j]!);
    }
  }
  const rest = new Float64Array(sets.length);
  for (let s = 0; s < sets.length; s++) {
    let product = none;
    for (let a = s * most; a < (s + 1) * most && members[a]! >= 0; a++) {
      product *= single[members[a]!]!;
      for (let b = s * most; b < a; b++) product *= pair[members[b]! * n + members[a]!]!;
    }
    rest[s] = factor[classes[s]!]! / product;
  }
  return { single, pair, rest };
}
