/** What one moved strength does to every cause, from the sets that hold its cause alone. */
import { setsMachine, workshop } from '../../diagnosis/fast/sets-machine.ts';
import type { HypothesisSpace } from '../../diagnosis/hypotheses.ts';
import type { Model } from '../../diagnosis/model.ts';

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
export function strengthShifts(model: Model, weights: Float64Array): Shifts {
  const { causes: n } = model.space;
  const shop = shopOf(model);
  const { from } = shop;
  const { code, numbers, counts, at } = shop.lists;
  return (share, classOf, cause) => {
    // What another case laid there is another's.
    if (shop.laid.weights !== weights) numbers.weights.set(weights);
    if (shop.laid.share !== share) numbers.share.set(share);
    if (shop.laid.classOf !== classOf) counts.classOf.set(classOf);
    shop.laid = { weights, share, classOf };
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

interface Shop {
  readonly machine: ReturnType<typeof setsMachine>;
  readonly from: Int32Array;
  readonly lists: ReturnType<typeof layOut>;
  laid: { readonly weights?: Float64Array; readonly share?: Float64Array; readonly classOf?: Int32Array };
}

const kept = new WeakMap<HypothesisSpace, Shop>();

/** Made once: a memory for each case would be a large one that lingers until the engine collects it. */
function shopOf(model: Model): Shop {
  const { space } = model;
  const machine = setsMachine();
  let shop = kept.get(space);
  if (shop?.machine !== machine) {
    const { sets, from } = setsOfEach(model);
    shop = { machine, from, lists: layOut(space, sets), laid: {} };
    kept.set(space, shop);
  }
  return shop;
}

function layOut({ causes, size, parent, last }: HypothesisSpace, sets: Int32Array) {
  const made = workshop({
    numbers: { weights: size, share: size, causes },
    counts: { parents: size, lasts: size, classOf: size, sets: sets.length },
  });
  made.counts.parents.set(parent);
  made.counts.lasts.set(last);
  made.counts.sets.set(sets);
  return made;
}

/** The sets that hold each cause, rising, end to end, and after them all sets; where each begins, and where the last ends. */
export function setsOfEach({ space, keep }: Model) {
  return keep('sets-of-each', () => listSets(space));
}

function listSets({ parent, last, causes, size }: HypothesisSpace) {
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
