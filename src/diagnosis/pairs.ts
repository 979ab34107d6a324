/**
 * The two circuits of one damper at one end are one idea: too slow after slow movements and too slow from deep are both
 * "rebound too slow", and one trial of either tells much of the other. So a list for people names such a pair once, by its
 * likelier half, with the chance that either is off.
 */
import type { Belief } from './belief.ts';
import type { Model } from './model.ts';

/** A line of such a list. */
export interface Idea {
  /** the cause, or the likelier of a pair */
  readonly cause: number;
  /** the other half of the pair */
  readonly other?: number;
  /** probability that it, or either of the pair, is off */
  readonly probability: number;
}

interface Pair {
  readonly other: number;
  /** the sets that hold both */
  readonly both: Int32Array;
}

const kept = new WeakMap<Model, ReadonlyMap<number, Pair>>();

/** A cause as half of a pair; undefined for one that stands alone. */
export type PairOf = (cause: number) =>
  | {
      readonly other: number;
      /** probability that either is off */
      readonly probability: number;
      /** whether the other is the likelier half */
      readonly lesser: boolean;
    }
  | undefined;

export function pairsIn(model: Model, belief: Shares): PairOf {
  const pairs = pairsOf(model);
  return (cause) => {
    const pair = pairs.get(cause);
    if (pair === undefined) return undefined;
    return {
      other: pair.other,
      probability: eitherOf(belief, cause, pair),
      lesser: isLesser(belief, cause, pair),
    };
  };
}

/**
 * Causes and pairs by falling probability; equal ones keep the order of the rules.
 * @param most how many of them are wanted
 */
export function ideasOf(model: Model, belief: Shares, most = belief.causes.length): Idea[] {
  const { causes } = belief;
  const pairs = pairsOf(model);
  const out: Idea[] = [];
  const keys: number[] = [];
  // Insertion, as in a stream of cases only a few are wanted, and most can be told not to be among them by a look.
  for (let cause = 0; cause < causes.length; cause++) {
    const pair = pairs.get(cause);
    const bound = pair === undefined ? causes[cause]! : causes[cause]! + causes[pair.other]!;
    if (out.length === most && rounded(bound) <= keys[most - 1]!) continue;
    if (pair !== undefined && isLesser(belief, cause, pair)) continue;
    const probability = pair === undefined ? bound : eitherOf(belief, cause, pair);
    const key = rounded(probability);
    let at = out.length;
    while (at > 0 && keys[at - 1]! < key) at--;
    if (at === most) continue;
    out.splice(
      at,
      0,
      pair === undefined ? { cause, probability } : { cause, other: pair.other, probability },
    );
    keys.splice(at, 0, key);
    if (out.length > most) out.length = keys.length = most;
  }
  return out;
}

type Shares = Pick<Belief, 'causes' | 'weights'>;

/** Probability that either of a pair is off. */
function eitherOf({ causes, weights }: Shares, cause: number, { other, both }: Pair): number {
  let probability = causes[cause]! + causes[other]!;
  for (const set of both) probability -= weights[set]!;
  return probability;
}

/** Whether the other is the likelier half; of equal ones the first in the rules is. */
function isLesser({ causes }: Shares, cause: number, { other }: Pair): boolean {
  const [own, its] = [rounded(causes[cause]!), rounded(causes[other]!)];
  return its > own || (its === own && other < cause);
}

/** So that equal ones keep their order whatever the last bits say. */
export function rounded(probability: number): number {
  return Math.round(probability * 1e10);
}

/** Cause → the same direction of its setting's partner, where the rules have words for the two together. */
export function pairsOf(model: Model): ReadonlyMap<number, Pair> {
  let pairs = kept.get(model);
  if (pairs !== undefined) return pairs;
  const { causes, settings } = model.rules;
  const place = new Map(settings.map(({ id }, s) => [id, s]));
  const other = causes.map(({ setting, direction, pair }) => {
    const partner = settings[setting]!.partner;
    return pair === undefined || partner === undefined
      ? -1
      : causes.findIndex((c) => c.setting === place.get(partner) && c.direction === direction);
  });
  const halves = [...other.entries()].filter(([c, o]) => o > c && other[o] === c).map(([c]) => c);
  const { from, sets } = model.keep('pairs', () => setsOfBoth(model, other, halves));
  pairs = new Map(
    halves.flatMap((c, i) => {
      const both = sets.subarray(from[i], from[i + 1]);
      return [
        [c, { other: other[c]!, both }],
        [other[c]!, { other: c, both }],
      ];
    }),
  );
  kept.set(model, pairs);
  return pairs;
}

/**
 * The sets that hold both of a pair, one pair after another, and where each begins.
 * @param other the other half of every cause, -1 for none; @param halves the lower of each pair
 */
function setsOfBoth({ space }: Model, other: readonly number[], halves: readonly number[]) {
  const { size, parent, last } = space;
  const partner = Int32Array.from(other);
  const both = new Map<number, number[]>(halves.map((c) => [c, []]));
  // Up from each set through those it extends: no list of its causes is made, there are tens of thousands.
  for (let set = 0; set < size; set++)
    for (let here = set; here > 0; here = parent[here]!) {
      const lower = partner[last[here]!]!;
      if (lower < 0 || lower > last[here]!) continue;
      for (let above = parent[here]!; above > 0; above = parent[above]!)
        if (last[above] === lower) both.get(lower)?.push(set);
    }
  let end = 0;
  return {
    from: Int32Array.from([0, ...[...both.values()].map((sets) => (end += sets.length))]),
    sets: Int32Array.from([...both.values()].flat()),
  };
}
