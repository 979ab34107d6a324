/** Belief → the one thing to do first, and what waits. */
import type { Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Bench } from './bench.ts';
import { expectedCure, expectedWorth, valueOfKnowing } from './payoff.ts';
import { searchOrder } from './search-order.ts';

/** An adjustment that cures anything with less than this is not worth naming. */
const LEAST_CHANCE = 0.05;
/** A rung that cures less than this is passed over for the one after it. */
const LEAST_RUNG = 0.25;

/** change: do this; leave: nothing is off; unknown: leaving alone is best, but not for certain; stop: do not ride. */
export type Verdict = 'change' | 'leave' | 'unknown' | 'stop';

export interface Advice {
  readonly verdict: Verdict;
  /**
   * What to try, as indices into the rule base with the expected worth in fixes: the one to do first, then the others
   * that may cure something, in the order that finds the answer soonest if the first is not it.
   */
  readonly ranked: readonly { readonly adjustment: number; readonly worth: number }[];
  /** what to do first; undefined when nothing should be changed now */
  readonly first: number | undefined;
  /** why the first was put before a better-looking one */
  readonly because?: 'repair-first' | 'danger' | 'next-rung';
  /** what would have been first if its knob were there or had room, and why it is not */
  readonly insteadOf?: { readonly adjustment: number; readonly why: string };
  /** expected value of perfect information, in fixes; a look at every set, so only when asked for */
  readonly knowing: () => number;
}

/** @param dangerous whether an answer was given that stops all tuning */
export function advise(model: Model, bench: Bench, belief: Belief, dangerous: boolean): Advice {
  const { rules } = model;
  const { payoff } = bench;
  const worth = expectedWorth(payoff, belief.causes);
  const top = bestOf(worth);
  const knowing = (): number => valueOfKnowing(payoff, belief.weights, top === undefined ? 0 : worth[top]!);
  const as = (position: number) => ({ adjustment: payoff.adjustments[position]!, worth: worth[position]! });
  const repair = bestOf(worth, (p) => rules.adjustments[payoff.adjustments[p]!]!.kind === 'repair');
  const cure = expectedCure(payoff, belief.causes);
  const lead =
    dangerous ||
    (repair !== undefined && repair !== top && cure[repair]! >= rules.numbers.advice['repair-first']);
  const rung = lead ? undefined : nextRung(model, bench, belief, cure, top === undefined ? 0 : worth[top]!);
  const start =
    lead && repair !== undefined
      ? repair
      : (rung?.position ?? (top !== undefined && worth[top]! > 0 ? top : undefined));
  const rest: number[] = [];
  for (let p = 0; p < cure.length; p++) if (p !== start && cure[p]! >= LEAST_CHANCE) rest.push(p);
  const others = searchOrder(
    rest.map((p) => cure[p]!),
    rest.map(
      (p) => rules.adjustments[payoff.adjustments[p]!]!.minutes + rules.numbers.asking['minutes-floor'],
    ),
  ).map((i) => rest[i]!);
  const ranked = (start === undefined ? [] : [start, ...others]).map(as);
  if (dangerous) return { verdict: 'stop', ranked, first: ranked[0]?.adjustment, because: 'danger', knowing };
  if (ranked.length > 0) {
    return {
      verdict: 'change',
      ranked,
      first: ranked[0]!.adjustment,
      ...(lead
        ? { because: 'repair-first' as const }
        : rung === undefined
          ? {}
          : { because: 'next-rung' as const, insteadOf: rung.insteadOf }),
      knowing,
    };
  }
  const sure = belief.nothing >= rules.numbers.asking['nothing-off'];
  return { verdict: sure ? 'leave' : 'unknown', ranked: [], first: undefined, knowing };
}

/**
 * Where the best adjustment has no knob or no room, the first of its next rungs that can be done and cures anything:
 * the other adjuster of the pair, the spring, a service.
 */
function nextRung(model: Model, bench: Bench, belief: Belief, cure: readonly number[], best: number) {
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
    if (position >= 0 && cure[position]! >= LEAST_RUNG)
      return { position, insteadOf: { adjustment: blockedOne, why: reason.why } };
  }
  return undefined;
}

/** Position of the largest, rounded so that equal ones go to the first; undefined when none is allowed. */
function bestOf(
  worth: readonly number[],
  allowed: (position: number) => boolean = () => true,
): number | undefined {
  let best: number | undefined;
  let most = -Infinity;
  for (let p = 0; p < worth.length; p++) {
    const w = Math.round(worth[p]! * 1e10);
    if (w > most && allowed(p)) {
      most = w;
      best = p;
    }
  }
  return best;
}

/** Adjustments that would have been worth trying but cannot be done on this bike, with the next rungs. */
export function blocked(
  model: Model,
  bench: Bench,
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
