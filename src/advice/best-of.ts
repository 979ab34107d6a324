/**
 * Which of the adjustments on a bike is best by a number, or is the one looked for, and in which order several are tried.
 * Positions are those in its payoff.
 */
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';
import type { Situation } from './hold-back.ts';

/**
 * Position of the largest, rounded so that equal ones go to the first; undefined when none is allowed.
 * @param among the positions looked at, rising; absent: all
 */
export function bestOf(
  worth: Float64Array,
  allowed: (position: number) => boolean = () => true,
  among?: readonly number[],
): number | undefined {
  let best: number | undefined;
  let most = -Infinity;
  const count = among === undefined ? worth.length : among.length;
  for (let i = 0; i < count; i++) {
    const p = among === undefined ? i : among[i]!;
    const w = Math.round(worth[p]! * 1e10);
    if (w > most && allowed(p)) {
      most = w;
      best = p;
    }
  }
  return best;
}

/** Position of the first adjustment like that; -1 where no rule is. */
export function adjustmentFor({ model, bench }: Situation, is: (adjustment: Adjustment) => boolean): number {
  return bench.payoff.adjustments.findIndex((index) => is(model.rules.adjustments[index]!));
}

/**
 * The order in which to try several things when one of them is the answer: falling chance per minute. It makes the
 * expected time to the fix least (Kadane & Simon 1977; Heckerman, Breese & Rommelse, CACM 38(3) 1995, expected cost of
 * repair). Ties keep their order.
 * @param chance that each is the answer
 * @param cost of trying each, > 0
 * @returns positions, best first
 */
export function searchOrder(chance: readonly number[], cost: readonly number[]): number[] {
  // Rounded, so that what is equal but for the last bits of a sum keeps its order.
  const keys = chance.map((p, i) => Math.round((p / cost[i]!) * 1e10));
  return [...keys.keys()].sort((a, b) => keys[b]! - keys[a]! || a - b);
}
