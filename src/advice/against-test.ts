/** A step that speaks against what was tested: where the answers still point to what a trial found no better, a guess is no step. */
import type { InVain } from './refused.ts';
import type { Situation } from './hold-back.ts';

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
