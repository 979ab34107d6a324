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
  readonly both: readonly number[];
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

export function pairsIn(model: Model, { causes, weights }: Pick<Belief, 'causes' | 'weights'>): PairOf {
  const pairs = pairsOf(model);
  return (cause) => {
    const pair = pairs.get(cause);
    if (pair === undefined) return undefined;
    const { other } = pair;
    const [own, its] = [rounded(causes[cause]!), rounded(causes[other]!)];
    return {
      other,
      probability: causes[cause]! + causes[other]! - pair.both.reduce((sum, set) => sum + weights[set]!, 0),
      lesser: its > own || (its === own && other < cause),
    };
  };
}

/** Causes and pairs by falling probability; equal ones keep the order of the rules. */
export function ideasOf(model: Model, belief: Pick<Belief, 'causes' | 'weights'>): Idea[] {
  const pairs = pairsIn(model, belief);
  const out: Idea[] = [];
  for (let cause = 0; cause < belief.causes.length; cause++) {
    const pair = pairs(cause);
    if (pair === undefined) out.push({ cause, probability: belief.causes[cause]! });
    else if (!pair.lesser) out.push({ cause, other: pair.other, probability: pair.probability });
  }
  return out.sort((a, b) => rounded(b.probability) - rounded(a.probability) || a.cause - b.cause);
}

/** So that equal ones keep their order whatever the last bits say. */
export function rounded(probability: number): number {
  return Math.round(probability * 1e10);
}

/** Cause → the same direction of its setting's partner, where the rules have words for the two together. */
function pairsOf(model: Model): ReadonlyMap<number, Pair> {
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
  const both = new Map<number, number[]>();
  for (const [c, o] of other.entries()) if (o > c && other[o] === c) both.set(c, []);
  const { size, parent, last } = model.space;
  const partner = Int32Array.from(other);
  // Up from each set through those it extends: no list of its causes is made, there are tens of thousands.
  for (let set = 0; set < size; set++)
    for (let here = set; here > 0; here = parent[here]!) {
      const lower = partner[last[here]!]!;
      if (lower < 0 || lower > last[here]!) continue;
      for (let above = parent[here]!; above > 0; above = parent[above]!)
        if (last[above] === lower) both.get(lower)?.push(set);
    }
  pairs = new Map(
    [...both].flatMap(([c, sets]) => [
      [c, { other: other[c]!, both: sets }],
      [other[c]!, { other: c, both: sets }],
    ]),
  );
  kept.set(model, pairs);
  return pairs;
}
