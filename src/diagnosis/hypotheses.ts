/**
 * All sets of at most K causes, at most one direction a setting, numbered once.
 *
 * The order is a depth-first walk: every set is followed by the sets that extend it with later causes. So a set's
 * weight is its parent's times one factor, and the weight of all extensions is a sum over what follows it.
 */

import { keepNothing, type Keep } from './fast/precomputed.ts';
import { setsMachine } from './fast/sets-machine.ts';

const MOST_SETS = 4_000_000;

/** Stretches of full sets that share all causes but the last, where these follow one another: cause = set + shift. */
interface Stretches {
  /** place in `tops` of the set that each full set of the stretch extends */
  readonly top: Int32Array;
  readonly from: Int32Array;
  /** the first set after it */
  readonly to: Int32Array;
  readonly shift: Int32Array;
}

export interface HypothesisSpace {
  /** how many causes there are */
  readonly causes: number;
  /** K, the most causes in one set */
  readonly most: number;
  /** how many sets; number 0 is the empty set */
  readonly size: number;
  /** the set without its last cause; -1 for the empty set */
  readonly parent: Int32Array;
  /** the last (highest) cause of the set; -1 for the empty set */
  readonly last: Int16Array;
  readonly depth: Uint8Array;
  /** [set number × causes + cause] → number of the set with that later cause added, or -1; rows for sets below K only */
  readonly child: Int32Array;
  /** set number → row of `child`, or -1 when the set is full */
  readonly row: Int32Array;
  /** sets that could take two more causes, in order, and for every set its place among them, or -1 */
  readonly inner: Int32Array;
  readonly innerOf: Int32Array;
  /** sets one below full, in order; the full sets, nearly all there are, come from these */
  readonly tops: Int32Array;
  /** for each top, the place of its parent in `inner`, and its last cause; 0 and `causes` for the empty set */
  readonly topUp: Int32Array;
  readonly topLast: Int16Array;
  readonly stretches: Stretches;
}

/** How large a set may be. */
export interface Sizes {
  /** K, the most causes in one set */
  readonly most: number;
  /** for every cause, the most causes in a set that holds it; absent: K for all */
  readonly beside?: readonly number[];
}

/**
 * @param setting for every cause, the setting it is a direction of; causes of one setting exclude each other
 * @throws RangeError when there would be more than four million sets
 */
export function enumerate(
  setting: readonly number[],
  sizes: number | Sizes,
  keep: Keep = keepNothing,
): HypothesisSpace {
  const { most, beside = [] } = typeof sizes === 'number' ? { most: sizes } : sizes;
  const sets = keep('sets', () => setsOf(setting, most, beside));
  const { last, depth } = sets;
  const size = last.length;
  return {
    causes: setting.length,
    most,
    size,
    ...sets,
    stretches: keep('stretches', () => stretchesOf(sets.tops, { size, last, depth, most })),
  };
}

function setsOf(setting: readonly number[], most: number, beside: readonly number[]) {
  const n = setting.length;
  const parent: number[] = [];
  const last: number[] = [];
  const depth: number[] = [];
  const row: number[] = [];
  /** set × cause → set, laid down as rows of n; filled in once all sets are numbered */
  const links: number[] = [];
  let rows = 0;
  const members: number[] = [];
  const walk = (above: number, room: number): void => {
    const me = parent.length;
    if (me > MOST_SETS)
      throw new RangeError(
        `${n} causes, ${most} at once, make more than ${MOST_SETS} sets; lower causes-at-once.`,
      );
    const from = members.at(-1) ?? -1;
    parent.push(above);
    last.push(from);
    depth.push(members.length);
    const mine = members.length === most ? -1 : rows++;
    row.push(mine);
    if (members.length >= room) return;
    for (let cause = from + 1; cause < n; cause++) {
      const fits = Math.min(room, beside[cause] ?? most);
      if (members.length >= fits || members.some((m) => setting[m] === setting[cause])) continue;
      links.push(mine * n + cause, parent.length);
      members.push(cause);
      walk(me, fits);
      members.pop();
    }
  };
  walk(-1, most);
  const size = parent.length;
  const child = new Int32Array(rows * n).fill(-1);
  for (let i = 0; i < links.length; i += 2) child[links[i]!] = links[i + 1]!;
  const inner: number[] = [];
  const tops: number[] = [];
  for (let h = 0; h < size; h++) {
    if (depth[h]! < most - 1) inner.push(h);
    else if (depth[h] === most - 1) tops.push(h);
  }
  const innerOf = new Int32Array(size).fill(-1);
  inner.forEach((h, i) => (innerOf[h] = i));
  return {
    parent: Int32Array.from(parent),
    last: Int16Array.from(last),
    depth: Uint8Array.from(depth),
    child,
    row: Int32Array.from(row),
    inner: Int32Array.from(inner),
    innerOf,
    tops: Int32Array.from(tops),
    topUp: Int32Array.from(tops, (h) => (h === 0 ? 0 : innerOf[parent[h]!]!)),
    topLast: Int16Array.from(tops, (h) => (h === 0 ? n : last[h]!)),
  };
}

function stretchesOf(
  tops: Int32Array,
  { size, last, depth, most }: Pick<HypothesisSpace, 'size' | 'last' | 'depth' | 'most'>,
) {
  const top: number[] = [];
  const from: number[] = [];
  const to: number[] = [];
  tops.forEach((set, place) => {
    for (let h = set + 1; h < size && depth[h] === most; h++) {
      if (h > set + 1 && last[h] === last[h - 1]! + 1) to[to.length - 1] = h + 1;
      else {
        top.push(place);
        from.push(h);
        to.push(h + 1);
      }
    }
  });
  return {
    top: Int32Array.from(top),
    from: Int32Array.from(from),
    to: Int32Array.from(to),
    shift: Int32Array.from(from, (h) => last[h]! - h),
  } satisfies Stretches;
}

/** The causes of a set, in rising order. */
export function membersOf(space: HypothesisSpace, set: number): number[] {
  const out: number[] = [];
  for (let h = set; h > 0; h = space.parent[h]!) out.push(space.last[h]!);
  return out.reverse();
}

/** The number of the set with these causes (rising order), or -1 when it is too large or holds opposites. */
export function findSet(space: HypothesisSpace, causes: readonly number[]): number {
  let here = 0;
  for (const cause of causes) {
    const row = space.row[here]!;
    if (row < 0) return -1;
    here = space.child[row * space.causes + cause]!;
    if (here < 0) return -1;
  }
  return here;
}

/**
 * Unnormalised prior of every set: the product of its causes' odds (the empty set has 1).
 * @param odds prior odds π/(1−π) a cause
 */
export function priorWeights(space: HypothesisSpace, odds: Float64Array, out: Float64Array): Float64Array {
  const { parent, last, size } = space;
  const { code, place, read } = setsMachine();
  const [each, parents, lasts, to] = place([odds, parent, new Int32Array(last)], size);
  code.priorOf(to, each, parents, lasts, size);
  out.set(read(to, size));
  return out;
}

/**
 * Probability of every cause: the sum of the sets it is in.
 * @param scratch as long as the space; holds afterwards, in its first place, the weight of all sets together
 */
export function marginals(
  space: HypothesisSpace,
  weights: Float64Array,
  scratch: Float64Array,
  out: Float64Array,
): Float64Array {
  const { inner, tops } = space;
  out.fill(0);
  pick(scratch, weights, inner);
  pick(scratch, weights, tops);
  sumFull(space, weights, scratch, out);
  // A set comes after its parent, so backwards every set has all its extensions before it is passed on.
  passOn(space, tops, scratch, out);
  passOn(space, inner, scratch, out);
  return out;
}

/* Loops by themselves, so that no more is compiled where one of them is found worth it. */

function pick(to: Float64Array, from: Float64Array, sets: Int32Array): void {
  for (let i = 0; i < sets.length; i++) to[sets[i]!] = from[sets[i]!]!;
}

/** The full sets, which are nearly all. */
function sumFull(
  { tops, stretches }: HypothesisSpace,
  weights: Float64Array,
  scratch: Float64Array,
  out: Float64Array,
): void {
  const { top, from, to, shift } = stretches;
  for (let s = 0; s < top.length; s++) {
    let sum = 0;
    for (let h = from[s]!, end = to[s]!, cause = h + shift[s]!; h < end; h++, cause++) {
      const w = weights[h]!;
      out[cause]! += w;
      sum += w;
    }
    scratch[tops[top[s]!]!]! += sum;
  }
}

function passOn(
  { parent, last }: HypothesisSpace,
  sets: Int32Array,
  scratch: Float64Array,
  out: Float64Array,
): void {
  for (let i = sets.length - 1; i >= 0; i--) {
    const h = sets[i]!;
    if (h === 0) break;
    out[last[h]!]! += scratch[h]!;
    scratch[parent[h]!]! += scratch[h]!;
  }
}
