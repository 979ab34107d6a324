/** The sets of a few causes out of all, as the questions of one group see them: which of their own causes are off. */
import type { HypothesisSpace } from '../hypotheses.ts';

export interface Classes {
  /** number of each class as a set of the space, depth first; class 0 is none of these causes */
  readonly sets: Int32Array;
  /** the class without its last cause, and that cause's place among the own ones; 0 and -1 for class 0 */
  readonly up: Int32Array;
  readonly last: Int16Array;
  readonly depth: Uint8Array;
  /** the own causes, rising, and the class of each alone */
  readonly own: Int16Array;
  readonly singles: Int32Array;
  /** [own × own] class of each pair, the lower cause first; 0 where they exclude each other or only one fits */
  readonly pairs: Int32Array;
  /** how many classes are of three causes or more */
  readonly crowded: number;
}

/** @param own causes, rising */
export function classesOf(space: HypothesisSpace, own: readonly number[]): Classes {
  const n = own.length;
  const sets: number[] = [];
  const up: number[] = [];
  const last: number[] = [];
  const depth: number[] = [];
  const singles = new Int32Array(n);
  const pairs = new Int32Array(n * n);
  // Walk only the sets made of own causes, in the order of all sets.
  const walk = (set: number, above: number, place: number, size: number): void => {
    const me = sets.length;
    sets.push(set);
    up.push(above);
    last.push(place);
    depth.push(size);
    if (size === 1) singles[place] = me;
    if (size === 2) pairs[last[above]! * n + place] = me;
    const row = space.row[set]!;
    if (row < 0) return;
    for (let i = place + 1; i < n; i++) {
      const next = space.child[row * space.causes + own[i]!]!;
      if (next >= 0) walk(next, me, i, size + 1);
    }
  };
  walk(0, 0, -1, 0);
  return {
    sets: Int32Array.from(sets),
    up: Int32Array.from(up),
    last: Int16Array.from(last),
    depth: Uint8Array.from(depth),
    own: Int16Array.from(own),
    singles,
    pairs,
    crowded: depth.filter((d) => d > 2).length,
  };
}

/** The classes of all groups end to end, to be kept as one. */
export interface JoinedClasses {
  readonly sets: Int32Array;
  readonly up: Int32Array;
  readonly last: Int16Array;
  readonly depth: Uint8Array;
  readonly own: Int16Array;
  readonly singles: Int32Array;
  readonly pairs: Int32Array;
  /** for each group, how many classes, how many own causes, and how many classes of three or more of these */
  readonly counts: Int32Array;
}

/** Numbers of a group in `counts`. */
const COUNTS = 3;

export function joinedClasses(all: readonly Classes[]): JoinedClasses {
  return {
    sets: endToEnd(Int32Array, all, (c) => c.sets),
    up: endToEnd(Int32Array, all, (c) => c.up),
    last: endToEnd(Int16Array, all, (c) => c.last),
    depth: endToEnd(Uint8Array, all, (c) => c.depth),
    own: endToEnd(Int16Array, all, (c) => c.own),
    singles: endToEnd(Int32Array, all, (c) => c.singles),
    pairs: endToEnd(Int32Array, all, (c) => c.pairs),
    counts: Int32Array.from(all.flatMap((c) => [c.sets.length, c.own.length, c.crowded])),
  };
}

/** Into an array as long as all of them, not by way of lists that grow. */
function endToEnd<T extends Int32Array | Int16Array | Uint8Array>(
  kind: new (length: number) => T,
  all: readonly Classes[],
  of: (c: Classes) => T,
): T {
  const out = new kind(all.reduce((length, c) => length + of(c).length, 0));
  let at = 0;
  for (const c of all) {
    out.set(of(c), at);
    at += of(c).length;
  }
  return out;
}

/** The same, each group's for itself. */
export function apart(all: JoinedClasses): Classes[] {
  const out: Classes[] = [];
  let c = 0;
  let o = 0;
  let p = 0;
  for (let i = 0; i < all.counts.length; i += COUNTS) {
    const classes = all.counts[i]!;
    const own = all.counts[i + 1]!;
    const crowded = all.counts[i + 2]!;
    out.push({
      sets: all.sets.subarray(c, c + classes),
      up: all.up.subarray(c, c + classes),
      last: all.last.subarray(c, c + classes),
      depth: all.depth.subarray(c, c + classes),
      own: all.own.subarray(o, o + own),
      singles: all.singles.subarray(o, o + own),
      pairs: all.pairs.subarray(p, p + own * own),
      crowded,
    });
    c += classes;
    o += own;
    p += own * own;
  }
  return out;
}

/** The class of every set. */
export function mapClasses(space: HypothesisSpace, { sets, up, last, own }: Classes): Int32Array {
  const { parent, last: lastOf, size, causes } = space;
  const place = new Int16Array(causes).fill(-1);
  own.forEach((cause, i) => (place[cause] = i));
  const child = new Int32Array(sets.length * own.length);
  for (let c = 1; c < sets.length; c++) child[up[c]! * own.length + last[c]!] = c;
  const out = new Int32Array(size);
  for (let h = 1; h < size; h++) {
    const above = out[parent[h]!]!;
    const i = place[lastOf[h]!]!;
    out[h] = i < 0 ? above : child[above * own.length + i]!;
  }
  return out;
}

/** Sets in which three causes of one group meet: only there is its factor more than a product over causes and pairs. */
export interface Crowded {
  readonly sets: Int32Array;
  /** class of each */
  readonly classes: Int32Array;
  /** [set × K] places of the group's causes in each; the rest is -1 */
  readonly members: Int16Array;
}

export function crowdedSets(space: HypothesisSpace, classes: Classes): Crowded {
  const classOf = mapClasses(space, classes);
  const sets: number[] = [];
  for (let h = 0; h < space.size; h++) if (classes.depth[classOf[h]!]! > 2) sets.push(h);
  const members = new Int16Array(sets.length * space.most).fill(-1);
  for (let s = 0; s < sets.length; s++) {
    const c = classOf[sets[s]!]!;
    for (let at = c, i = s * space.most + classes.depth[c]! - 1; at > 0; at = classes.up[at]!, i--)
      members[i] = classes.last[at]!;
  }
  return { sets: Int32Array.from(sets), classes: Int32Array.from(sets, (h) => classOf[h]!), members };
}
