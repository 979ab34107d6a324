/**
 * Which of a group's causes are off, out of the whole posterior.
 *
 * A question looks only at the causes it points to, so it needs the probability of each class of its group, not of every
 * set. That comes, exactly, by inclusion and exclusion from the weight of all sets that contain a given one.
 */
import type { Group } from './groups.ts';
import { subsetTable, type HypothesisSpace } from './hypotheses.ts';
import type { Belief } from './belief.ts';
import type { Model } from './model.ts';

/** A belief seen from both sides: the weight of every set, and of all sets that contain it. */
export interface Posterior {
  readonly weights: Float64Array;
  readonly containing: Float64Array;
  /** class probabilities already worked out, by group */
  readonly classes: Map<Group, Float64Array>;
}

export function posteriorOf(model: Model, belief: Pick<Belief, 'weights' | 'causes'>): Posterior {
  return {
    weights: belief.weights,
    containing: supersetSums(model.space, belief, new Float64Array(model.space.size)),
    classes: new Map(),
  };
}

/** For every set, the weight of all sets that contain it (itself included). */
export function supersetSums(
  space: HypothesisSpace,
  belief: Pick<Belief, 'weights' | 'causes'>,
  out: Float64Array,
): Float64Array {
  return space.most === 3 ? ofTriples(space, belief, out) : anySize(space, belief.weights, out);
}

/** With sets of at most three, only pairs must be summed: the empty set has all, and the single causes are known. */
function ofTriples(
  space: HypothesisSpace,
  { weights, causes }: Pick<Belief, 'weights' | 'causes'>,
  out: Float64Array,
): Float64Array {
  const { last, parent, child, row, causes: n, inner, tops } = space;
  const { top, from, to, shift } = space.stretches;
  out.set(weights);
  let total = 0;
  for (let s = 0; s < top.length; s++) {
    const pair = tops[top[s]!]!;
    // The triples (i, j, k) after the pair (i, j) are part of that pair and of (i, k) and (j, k).
    const withI = row[parent[pair]!]! * n + shift[s]!;
    const withJ = row[child[row[0]! * n + last[pair]!]!]! * n + shift[s]!;
    let sum = 0;
    for (let h = from[s]!, end = to[s]!; h < end; h++) {
      const w = weights[h]!;
      out[child[withI + h]!]! += w;
      out[child[withJ + h]!]! += w;
      sum += w;
    }
    out[pair]! += sum;
    total += sum;
  }
  for (let i = 0; i < tops.length; i++) total += weights[tops[i]!]!;
  for (let i = 0; i < inner.length; i++) {
    const h = inner[i]!;
    total += weights[h]!;
    if (h > 0) out[h] = causes[last[h]!]!;
  }
  out[0] = total;
  return out;
}

function anySize(space: HypothesisSpace, weights: Float64Array, out: Float64Array): Float64Array {
  out.set(weights);
  const { start, list } = subsetTable(space);
  for (let h = 1; h < space.size; h++) {
    const w = weights[h]!;
    for (let s = start[h]!, end = start[h + 1]!; s < end; s++) out[list[s]!]! += w;
  }
  return out;
}

interface Lattice {
  /** proper subsets of each class, as classes: a list a class, laid end to end */
  readonly start: Int32Array;
  readonly list: Int32Array;
  /** classes, the largest first */
  readonly order: Int32Array;
}

const lattices = new WeakMap<Group, Lattice>();

function latticeOf(model: Model, group: Group): Lattice {
  const known = lattices.get(group);
  if (known !== undefined) return known;
  const all = subsetTable(model.space);
  const classOfSet = new Map<number, number>();
  group.classes.forEach((set, c) => classOfSet.set(set, c));
  const start = new Int32Array(group.classes.length + 1);
  const list: number[] = [];
  group.classes.forEach((set, c) => {
    start[c] = list.length;
    for (let s = all.start[set]!; s < all.start[set + 1]!; s++) list.push(classOfSet.get(all.list[s]!)!);
  });
  start[group.classes.length] = list.length;
  const depth = (c: number): number => model.space.depth[group.classes[c]!]!;
  const order = Int32Array.from(group.classes.keys()).sort((a, b) => depth(b) - depth(a) || a - b);
  const lattice = { start, list: Int32Array.from(list), order };
  lattices.set(group, lattice);
  return lattice;
}

/** Above this share of all sets, adding the sets up one by one is cheaper than inclusion and exclusion. */
const MANY = 1 / 8;

/** P(exactly these of the group's causes are off), for each class; worked out once a posterior. */
export function classProbabilities(model: Model, group: Group, posterior: Posterior): Float64Array {
  let out = posterior.classes.get(group);
  if (out === undefined) {
    out = workOut(model, group, posterior);
    posterior.classes.set(group, out);
  }
  return out;
}

function workOut(model: Model, group: Group, { weights, containing }: Posterior): Float64Array {
  const out = new Float64Array(group.classes.length);
  if (out.length > MANY * model.space.size) {
    const classOf = group.classOf();
    for (let h = 0; h < weights.length; h++) out[classOf[h]!]! += weights[h]!;
    return out;
  }
  for (let c = 0; c < out.length; c++) out[c] = containing[group.classes[c]!]!;
  return exclude(latticeOf(model, group), out);
}

const holders = new WeakMap<HypothesisSpace, Int32Array[]>();

/** The sets that hold a cause, by number. */
export function setsWith(space: HypothesisSpace, cause: number): Int32Array {
  let lists = holders.get(space);
  if (lists === undefined) {
    const all = Array.from({ length: space.causes }, (): number[] => []);
    for (let h = 1; h < space.size; h++)
      for (let x = h; x > 0; x = space.parent[x]!) all[space.last[x]!]!.push(h);
    lists = all.map((list) => Int32Array.from(list));
    holders.set(space, lists);
  }
  return lists[cause]!;
}

/** "At least these" → "exactly these": settled by size, the largest first. */
function exclude({ start, list, order }: Lattice, out: Float64Array): Float64Array {
  for (let i = 0; i < order.length; i++) {
    const c = order[i]!;
    const p = out[c]!;
    if (p === 0) continue;
    for (let s = start[c]!, end = start[c + 1]!; s < end; s++) out[list[s]!]! -= p;
  }
  // What is left of a difference of equal sums may lie a hair below nothing.
  for (let c = 0; c < out.length; c++) if (out[c]! < 0) out[c] = 0;
  return out;
}
