/** Which of the adjustments on a bike is best by a number, or is the one looked for. Positions are those in its payoff. */
import type { Adjustment } from '../rulebase/compiled.ts';
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
