/** Where an adjustment has no knob or no room: what comes after it. */
import { bestOf } from './best-of.ts';
import { missingProof, refusalOf, roomlessOf, unprovedOf, type Situation } from './hold-back.ts';
import { expectedWorth } from './payoff.ts';

/**
 * Where the best adjustment has no knob or no room, by the sheet or by the answers, the first of its next rungs that can be
 * done and cures anything: the other adjuster of the pair, the spring, a service.
 */
export function nextRung(
  s: Situation,
  cure: Float64Array,
  { best, allowed }: { readonly best: number; readonly allowed: (position: number) => boolean },
) {
  const { model, bench, belief } = s;
  const { payoff, possible } = bench;
  const all = bench.wished ?? payoff;
  const worth = expectedWorth(all, belief.causes);
  const top = bestOf(worth);
  if (top === undefined || worth[top]! <= Math.max(0, best)) return undefined;
  const blockedOne = all.adjustments[top]!;
  const reason = possible[blockedOne]!;
  const why = reason.can ? roomlessOf(s, model.rules.adjustments[blockedOne]!) : reason.why;
  if (why === undefined) return undefined;
  for (const id of model.rules.adjustments[blockedOne]!.next) {
    const position = payoff.adjustments.findIndex((a) => model.rules.adjustments[a]!.id === id);
    if (position >= 0 && cure[position]! >= model.rules.numbers.advice['rung-cure'] && allowed(position))
      return { position, insteadOf: { adjustment: blockedOne, why } };
  }
  return undefined;
}

/** What cannot be done on this bike, and what comes after it. */
export interface Blocked {
  readonly adjustment: number;
  readonly why: string;
  /** the next rungs, by id */
  readonly next: readonly string[];
  /** the first of them that would cure it as well, the proof that it lacks, and the question whose answer is that proof */
  readonly waits?: { readonly adjustment: number; readonly why: string; readonly ask: string | undefined };
}

/** Adjustments that would have been worth trying but cannot be done on this bike. */
export function blocked(situation: Situation): Blocked[] {
  const { model, bench, belief } = situation;
  const { adjustments, numbers } = model.rules;
  const { 'upset-when-right': upset, 'rung-cure': least } = numbers.advice;
  const cureOf = (index: number): number => {
    const { cures } = bench.effect(index);
    let cured = 0;
    for (let c = 0; c < cures.length; c++) cured += cures[c]! * belief.causes[c]!;
    return cured;
  };
  const waiting = (id: string): Blocked['waits'][] => {
    const index = adjustments.findIndex((a) => a.id === id);
    if (!bench.possible[index]!.can || cureOf(index) < least) return [];
    const why =
      refusalOf(situation, adjustments[index]!) === undefined ? missingProof(situation, index) : undefined;
    return why === undefined ? [] : [{ adjustment: index, why, ask: unprovedOf(situation, index) }];
  };
  return adjustments.flatMap((a, index) => {
    const p = bench.possible[index]!;
    const why = p.can ? roomlessOf(situation, a) : p.unfit ? undefined : p.why;
    if (why === undefined || cureOf(index) <= upset) return [];
    const [waits] = a.next.flatMap(waiting);
    return [{ adjustment: index, why, next: a.next, ...(waits === undefined ? {} : { waits }) }];
  });
}
