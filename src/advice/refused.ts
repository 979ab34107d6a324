/** What would cure something likely and is not named: what the rules refuse, and what was ridden or tried and was no better. */
import type { Situation } from './hold-back.ts';

/** A step that was ridden and was no better. */
export interface InVain {
  /** why it is not named */
  readonly why: string;
  /** it is named all the same where it cures anything as likely as this; absent: never */
  readonly unless?: number;
  /** a trial found it; absent: it was only tried before, as remembered */
  readonly tested?: true;
  /** half of it, as a change, where it was rated worse and as little was never turned */
  readonly less?: string;
}

export interface Refused {
  /** index into the rule base's adjustments */
  readonly adjustment: number;
  readonly why: string;
}

/**
 * @param refusable positions of what the rules may refuse
 * @param cure how likely each position cures anything, 0..1
 * @param least below this it is not worth a word
 * @param refusal why a position is not named, and `inVain` of what was ridden alone; undefined where it is
 */
export function refusedOf(
  adjustments: Uint16Array,
  {
    refusable,
    cure,
    least,
    refusal,
    ridden,
    inVain,
  }: {
    readonly refusable: readonly number[];
    readonly cure: Float64Array;
    readonly least: number;
    readonly refusal: (position: number) => string | undefined;
    readonly ridden: ReadonlyMap<number, InVain> | undefined;
    readonly inVain: (position: number) => string | undefined;
  },
): readonly Refused[] {
  const refused: Refused[] = [];
  const add = (position: number, why: (position: number) => string | undefined): void => {
    const said = position >= 0 && cure[position]! >= least ? why(position) : undefined;
    const adjustment = adjustments[position]!;
    if (said !== undefined && !refused.some((one) => one.adjustment === adjustment))
      refused.push({ adjustment, why: said });
  };
  for (const p of refusable) add(p, refusal);
  for (const adjustment of ridden?.keys() ?? []) add(adjustments.indexOf(adjustment), inVain);
  return refused;
}

/**
 * Whether the step that is left is much less likely to cure anything than one that was ridden in vain on the bike as it
 * stands, and that one more likely than not: then the answers and the test disagree, and one of the two is looked at
 * again before anything else is turned.
 * @param wanted position of the step that is left
 * @param cure how likely each position cures anything, 0..1
 */
export function isGuessAfterTest(
  { model: { rules }, bench: { payoff } }: Situation,
  {
    wanted,
    cure,
    ridden,
  }: {
    readonly wanted: number;
    readonly cure: Float64Array;
    readonly ridden: ReadonlyMap<number, InVain> | undefined;
  },
): boolean {
  if (ridden === undefined) return false;
  const { likely, share } = rules.numbers.advice['against-test'];
  let most = 0;
  for (const [adjustment, { tested }] of ridden) {
    const p = tested === true ? payoff.adjustments.indexOf(adjustment) : -1;
    if (p >= 0) most = Math.max(most, cure[p]!);
  }
  return most >= likely && cure[wanted]! < share * most;
}
