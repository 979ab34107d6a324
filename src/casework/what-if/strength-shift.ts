/** What one moved strength does to every cause, from the sets that hold its cause alone. */
import type { HypothesisSpace } from '../../diagnosis/hypotheses.ts';

/** What a sign missed one time more often adds to the weight of all sets, of those that hold each cause, and of the empty one. */
export interface Shift {
  readonly total: number;
  readonly causes: Float64Array;
  readonly nothing: number;
}

/**
 * @param weights of every set, adding up to 1
 * @param share of each class, how much of its factor hangs on missing the sign
 * @param classOf set → class
 * @param cause -1: whatever is off
 */
export function strengthShift(
  space: HypothesisSpace,
  weights: Float64Array,
  { share, classOf }: { readonly share: Float64Array; readonly classOf: Int32Array },
  cause: number,
): Shift {
  const causes = new Float64Array(space.causes);
  const total = addShares(causes, space, weights, { share, classOf, sets: setsWith(space, cause) });
  return { total, causes, nothing: cause < 0 ? share[0]! * weights[0]! : 0 };
}

/** A loop by itself, so that no more is compiled where it is found worth it. */
function addShares(
  causes: Float64Array,
  { parent, last }: HypothesisSpace,
  weights: Float64Array,
  {
    share,
    classOf,
    sets,
  }: { readonly share: Float64Array; readonly classOf: Int32Array; readonly sets: Int32Array },
): number {
  let total = 0;
  for (let i = 0; i < sets.length; i++) {
    const h = sets[i]!;
    const more = share[classOf[h]!]! * weights[h]!;
    total += more;
    for (let at = h; at > 0; at = parent[at]!) causes[last[at]!]! += more;
  }
  return total;
}

const kept = new WeakMap<HypothesisSpace, readonly Int32Array[]>();

/** The sets that hold a cause, rising; all of them where it is -1. */
function setsWith(space: HypothesisSpace, cause: number): Int32Array {
  let lists = kept.get(space);
  if (lists === undefined) kept.set(space, (lists = listSets(space)));
  return lists[cause < 0 ? space.causes : cause]!;
}

function listSets({ parent, last, causes, size }: HypothesisSpace): readonly Int32Array[] {
  const count = new Int32Array(causes + 1);
  for (let h = 1; h < size; h++) for (let at = h; at > 0; at = parent[at]!) count[last[at]!]!++;
  count[causes] = size;
  const lists = Array.from(count, (length) => new Int32Array(length));
  count.fill(0);
  for (let h = 0; h < size; h++) {
    lists[causes]![h] = h;
    for (let at = h; at > 0; at = parent[at]!) {
      const cause = last[at]!;
      lists[cause]![count[cause]!++] = h;
    }
  }
  return lists;
}
