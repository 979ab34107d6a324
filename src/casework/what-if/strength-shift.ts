/** What one moved strength does to every cause, from the sets that hold its cause alone. */
import { workshop } from '../../diagnosis/fast/sets-machine.ts';
import type { HypothesisSpace } from '../../diagnosis/hypotheses.ts';

/** What a sign missed one time more often adds to the weight of all sets, of those that hold each cause, and of the empty one. */
export interface Shift {
  readonly total: number;
  readonly causes: Float64Array;
  readonly nothing: number;
}

/**
 * @param share of each class, how much of its factor hangs on missing the sign
 * @param classOf set → class
 * @param cause -1: whatever is off
 */
export type Shifts = (share: Float64Array, classOf: Int32Array, cause: number) => Shift;

/** @param weights of every set, adding up to 1 */
export function strengthShifts(space: HypothesisSpace, weights: Float64Array): Shifts {
  const { causes: n, size } = space;
  const { sets, from } = setsOfEach(space);
  const { code, numbers, counts, at } = workshop({
    numbers: { weights: size, share: size, causes: n },
    counts: { parents: size, lasts: size, classOf: size, sets: sets.length },
  });
  numbers.weights.set(weights);
  counts.parents.set(space.parent);
  counts.lasts.set(space.last);
  counts.sets.set(sets);
  let placed: { readonly share: Float64Array; readonly classOf: Int32Array } | undefined;
  return (share, classOf, cause) => {
    if (placed?.share !== share) numbers.share.set(share);
    if (placed?.classOf !== classOf) counts.classOf.set(classOf);
    placed = { share, classOf };
    numbers.causes.fill(0);
    const row = cause < 0 ? n : cause;
    const total = code.addShares(
      at.causes,
      at.parents,
      at.lasts,
      at.weights,
      at.share,
      at.classOf,
      at.sets,
      from[row]!,
      from[row + 1]!,
    );
    return { total, causes: numbers.causes.slice(), nothing: cause < 0 ? share[0]! * weights[0]! : 0 };
  };
}

/** The sets that hold each cause, rising, end to end, and after them all sets; where each begins, and where the last ends. */
interface SetsOfEach {
  readonly sets: Int32Array;
  readonly from: Int32Array;
}

const kept = new WeakMap<HypothesisSpace, SetsOfEach>();

function setsOfEach(space: HypothesisSpace): SetsOfEach {
  let lists = kept.get(space);
  if (lists === undefined) kept.set(space, (lists = listSets(space)));
  return lists;
}

function listSets({ parent, last, causes, size }: HypothesisSpace): SetsOfEach {
  const from = new Int32Array(causes + 2);
  for (let h = 1; h < size; h++) for (let at = h; at > 0; at = parent[at]!) from[last[at]! + 1]!++;
  from[causes + 1] = size;
  for (let c = 0; c <= causes; c++) from[c + 1]! += from[c]!;
  const sets = new Int32Array(from[causes + 1]!);
  const place = from.slice();
  for (let h = 0; h < size; h++) {
    sets[place[causes]!++] = h;
    for (let at = h; at > 0; at = parent[at]!) sets[place[last[at]!]!++] = h;
  }
  return { sets, from };
}
