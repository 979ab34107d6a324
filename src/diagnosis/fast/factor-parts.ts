/** A group's factor split into one number a cause, one a pair, and a correction where three of its causes meet. */
import type { Group } from '../groups.ts';
import type { HypothesisSpace } from '../hypotheses.ts';
import { setsMachine } from './sets-machine.ts';

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
  const { code, place, read, settle } = setsMachine();
  const wide = widened(members);
  settle(classes);
  settle(wide);
  // A pair that is no class is left as it is: nothing beside its two causes.
  const [one, two, all, alone, together, classOf, held, left] = place(
    [new Float64Array(n), new Float64Array(n * n).fill(1), factor, singles, pairs, classes, wide],
    sets.length,
  );
  if (code.takeSingles(one, n, alone, all) === 0 || code.takePairs(two, n, together, all, one) === 0)
    return null;
  code.takeRest(left, sets.length, all, classOf, one, two, n, held, most);
  return {
    single: read(one, n).slice(),
    pair: read(two, n * n).slice(),
    rest: read(left, sets.length).slice(),
  };
}

const wides = new WeakMap<Int16Array, Int32Array>();

/** As the loops take it; the same for every case. */
function widened(members: Int16Array): Int32Array {
  let wide = wides.get(members);
  if (wide === undefined) wides.set(members, (wide = new Int32Array(members)));
  return wide;
}
