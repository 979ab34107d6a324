/** The loops that split a group's factor into one number a cause, one a pair, and a correction; see `fast/factor-parts.ts`. */
import type { Counts, i32, Numbers } from '../../../physics/machine/loops/numbers.ts';

/** @returns whether all of them can be had: a factor of zero has none */
export function takeSingles(single: Numbers, n: i32, singles: Counts, factor: Numbers): i32 {
  const none = factor[0]!;
  for (let i: i32 = 0; i < n; i++) {
    const f = factor[singles[i]!]!;
    if (f === 0) return 0;
    single[i] = f / none;
  }
  return 1;
}

/** The same of the pairs; those that are no class stay as they are. */
export function takePairs(pair: Numbers, n: i32, pairs: Counts, factor: Numbers, single: Numbers): i32 {
  const none = factor[0]!;
  let at: i32 = 0;
  for (let i: i32 = 0; i < n; i++) {
    for (let j: i32 = 0; j < n; j++) {
      const c = pairs[at]!;
      if (c !== 0) {
        const f = factor[c]!;
        if (f === 0) return 0;
        pair[at] = f / (none * single[i]! * single[j]!);
      }
      at++;
    }
  }
  return 1;
}

/** What is left of each crowded set once its causes, alone and in pairs, are taken out. */
export function takeRest(
  rest: Numbers,
  count: i32,
  factor: Numbers,
  classes: Counts,
  single: Numbers,
  pair: Numbers,
  n: i32,
  members: Counts,
  most: i32,
): void {
  let from: i32 = 0;
  for (let s: i32 = 0; s < count; s++) {
    let product = factor[0]!;
    for (let a = from; a < from + most && members[a]! >= 0; a++) {
      product *= single[members[a]!]!;
      for (let b = from; b < a; b++) product *= pair[members[b]! * n + members[a]!]!;
    }
    rest[s] = factor[classes[s]!]! / product;
    from += most;
  }
}
