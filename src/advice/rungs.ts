/** Where an adjustment has no knob or no room: what comes after it. */
import type { Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import { bestOf } from './best-of.ts';
import type { Situation } from './hold-back.ts';
import { expectedWorth } from './payoff.ts';
import type { PreparedBike } from './prepared-bike.ts';

/**
 * Where the best adjustment has no knob or no room, the first of its next rungs that can be done and cures anything:
 * the other adjuster of the pair, the spring, a service.
 */
export function nextRung(
  { model, bench, belief }: Situation,
  cure: Float64Array,
  { best, allowed }: { readonly best: number; readonly allowed: (position: number) => boolean },
) {
  const { wished, payoff, possible } = bench;
  if (wished === undefined) return undefined;
  const worth = expectedWorth(wished, belief.causes);
  const top = bestOf(worth);
  if (top === undefined || worth[top]! <= Math.max(0, best)) return undefined;
  const blockedOne = wished.adjustments[top]!;
  const reason = possible[blockedOne]!;
  if (reason.can) return undefined;
  for (const id of model.rules.adjustments[blockedOne]!.next) {
    const position = payoff.adjustments.findIndex((a) => model.rules.adjustments[a]!.id === id);
    if (position >= 0 && cure[position]! >= model.rules.numbers.advice['rung-cure'] && allowed(position))
      return { position, insteadOf: { adjustment: blockedOne, why: reason.why } };
  }
  return undefined;
}

/** Adjustments that would have been worth trying but cannot be done on this bike, with the next rungs. */
export function blocked(
  model: Model,
  bench: PreparedBike,
  belief: Belief,
): { adjustment: number; why: string; next: readonly string[] }[] {
  const upset = model.rules.numbers.advice['upset-when-right'];
  return model.rules.adjustments.flatMap((a, index) => {
    const p = bench.possible[index]!;
    if (p.can || p.unfit) return [];
    const { cures } = bench.effect(index);
    let cured = 0;
    for (let c = 0; c < cures.length; c++) cured += cures[c]! * belief.causes[c]!;
    return cured > upset ? [{ adjustment: index, why: p.why, next: a.next }] : [];
  });
}
