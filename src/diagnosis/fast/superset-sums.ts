/** For every set, how likely it is that at least its causes are off: the sum of the sets that contain it. */
import type { HypothesisSpace } from '../hypotheses.ts';
import { workshop } from './sets-machine.ts';

/**
 * @param weights probability of every set
 * @param causes probability of every cause
 * @param out becomes, for every set, the probability of all sets that contain it, itself included
 */
export type Containing = (weights: Float64Array, causes: Float64Array, out: Float64Array) => void;

/** As with the weigher, all working space belongs to the function. */
export function containment(space: HypothesisSpace): Containing {
  if (space.most !== 3) return (weights, _, out) => anySize(space, weights, out);
  const { last, inner, tops, topUp, topLast, causes: n, size } = space;
  const { top, from, to, shift } = space.stretches;
  const length = top.length;
  const { code, numbers, counts, at } = workshop({
    /** pairs: [cause × cause] for each pair, the lower cause first, the weight of the triples that contain it */
    numbers: { weights: size, pairs: n * n },
    counts: { first: length, second: length, from: length, to: length, shift: length },
  });
  counts.first.set(top.map((t) => last[inner[topUp[t]!]!]!));
  counts.second.set(top.map((t) => topLast[t]!));
  counts.from.set(from);
  counts.to.set(to);
  counts.shift.set(shift);
  const { pairs } = numbers;
  return (weights, causes, out) => {
    numbers.weights.set(weights);
    pairs.fill(0);
    // The triples (i, j, k) count for the pairs (i, j), (i, k) and (j, k).
    code.countPairs(at.pairs, at.weights, n, at.first, at.second, at.from, at.to, at.shift, length);
    out.set(weights);
    for (let t = 0; t < tops.length; t++)
      out[tops[t]!]! += pairs[last[inner[topUp[t]!]!]! * n + topLast[t]!]!;
    for (let i = 1; i < inner.length; i++) out[inner[i]!] = causes[last[inner[i]!]!]!;
    out[0] = 1;
  };
}

function anySize(space: HypothesisSpace, weights: Float64Array, out: Float64Array): void {
  out.set(weights);
  const { start, list } = subsetTable(space);
  for (let h = 1; h < space.size; h++) {
    const w = weights[h]!;
    for (let s = start[h]!, end = start[h + 1]!; s < end; s++) out[list[s]!]! += w;
  }
}

interface SubsetTable {
  readonly start: Int32Array;
  readonly list: Int32Array;
}
const tables = new WeakMap<HypothesisSpace, SubsetTable>();

/** The proper subsets of every set, by number; built once a space, because it is only needed for questions. */
function subsetTable(space: HypothesisSpace): SubsetTable {
  const known = tables.get(space);
  if (known !== undefined) return known;
  const start = new Int32Array(space.size + 1);
  let total = 0;
  for (let h = 0; h < space.size; h++) {
    start[h] = total;
    total += 2 ** space.depth[h]! - 1;
  }
  start[space.size] = total;
  const list = new Int32Array(total);
  for (let h = 1; h < space.size; h++) {
    // The proper subsets of h: those of its parent, its parent itself, and each of those with the last cause added.
    const up = space.parent[h]!;
    let at = start[h]!;
    for (let s = start[up]!; s < start[up + 1]!; s++) {
      const sub = list[s]!;
      list[at++] = sub;
      list[at++] = space.child[space.row[sub]! * space.causes + space.last[h]!]!;
    }
    list[at++] = up;
  }
  const table = { start, list };
  tables.set(space, table);
  return table;
}
