/** Belief → the one thing to do first, and what waits. */
import type { Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Danger, Known } from '../diagnosis/gates.ts';
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';
import type { PreparedBike } from './prepared-bike.ts';
import { isGuessAfterTest, refusedOf, type InVain, type Refused } from './refused.ts';
import { bestOf, searchOrder } from './best-of.ts';
import {
  FREE,
  HELD,
  isOutOfPlace,
  missingProof,
  refusalOf,
  standingsOf,
  type Situation,
} from './hold-back.ts';
import { expectedCure, expectedWorth } from './payoff.ts';
import { answeredFirst, heldBack, isForDanger, marksOf, measuredFirst, type Because } from './put-first.ts';
import { backFirst, homeOf, leadingBack, type WayBack } from './way-back.ts';
import { beyond, isRepairFound } from './repairs.ts';
import { nextRung } from './rungs.ts';
import { isWorthKnowing } from './stop.ts';
import { once } from '../diagnosis/fast/once.ts';

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
  /**
   * Why the first was put before a better-looking one. measure-first: that one waits for a gauge; measured-first: a gauge
   * reads off, and that one is a click; held-back: that one is refused, or lacks a proof; put-back: something that was tried
   * made it worse and is still on the bike; none-of-these: the answers fit something that the rules do not know;
   * one-impression: they fit a rider who tells one impression throughout, whatever the bike does;
   * unexplained: nothing was found, and what was noticed stands all the same.
   */
  readonly because?: Because;
  /** what would have been first, and why it is not */
  readonly insteadOf?: { readonly adjustment: number; readonly why: string };
  /** what would cure something likely, and is refused by the rules */
  readonly refused: readonly Refused[];
  /** whether knowing the causes would be worth at least so much, in fixes; a look at many sets, so only when asked for */
  readonly worthKnowing: (enough: number) => boolean;
  /** the way back that the step of kind put-back stands for; absent: none is named */
  readonly back?: WayBack;
}

export interface Heeded {
  /** whether an answer was given that stops all tuning */
  readonly dangerous: boolean;
  /** which; absent: nobody says which it was */
  readonly dangers?: readonly Danger[];
  /** what was answered, for what the rules hold back */
  readonly known?: Known;
  /** absent: "nothing is off" has something to stand on, and no complaint stands against it */
  readonly grounds?: Grounds;
  /** chance that the causes are not behind the answers; absent: none */
  readonly none?: number;
  /** of that, the chance of one impression told throughout */
  readonly impression?: number;
  /** the way back from what was tried, made it worse and is still on the bike; absent: there is none */
  readonly back?: WayBack | undefined;
  /** the ways back from what made no difference and is still on the bike, the likeliest to help first */
  readonly left?: readonly WayBack[];
  /** what was ridden on the bike as it stands, or tried before, and was no better, by adjustment */
  readonly ridden?: ReadonlyMap<number, InVain> | undefined;
}

/** What a case has to show; asked only where the advice hangs on it. */
export interface Grounds {
  /** whether "nothing is off" has something to stand on */
  readonly foundNothing: () => boolean;
  /** whether more was noticed than clean looks can make nothing of */
  readonly complaintStands: (nothing: number) => boolean;
  /** whether the bike was looked at; one impression told throughout leads only then */
  readonly lookedAt: () => boolean;
}

export function advise(model: Model, bench: PreparedBike, belief: Belief, heeded: Heeded): Advice {
  const { dangerous, known } = heeded;
  const { rules } = model;
  const { payoff } = bench;
  const numbers = rules.numbers.advice;
  const s: Situation = { model, bench, belief, known, ridden: heeded.ridden };
  const rule = (p: number): Adjustment => rules.adjustments[payoff.adjustments[p]!]!;
  const marks = marksOf(bench);
  const worth = expectedWorth(payoff, belief.causes);
  const cure = expectedCure(payoff, belief.causes);
  const best = bestOf(worth);
  const worthKnowing = (enough: number): boolean =>
    isWorthKnowing(payoff, model.space, belief.weights, best === undefined ? 0 : worth[best]!, enough);
  const as = (position: number) => ({ adjustment: payoff.adjustments[position]!, worth: worth[position]! });
  const inVain = (p: number): string | undefined => {
    const before = heeded.ridden?.get(payoff.adjustments[p]!);
    return before?.unless !== undefined && cure[p]! >= before.unless ? undefined : before?.why;
  };
  const refusal = (p: number): string | undefined =>
    inVain(p) ?? (rule(p).refuseWhen.length === 0 ? undefined : refusalOf(s, rule(p)));
  const standing = standingsOf(s);
  const allowed = (p: number): boolean => {
    const is = standing(p);
    if (is === FREE) return inVain(p) === undefined;
    return is !== HELD && refusal(p) === undefined && missingProof(s, payoff.adjustments[p]!) === undefined;
  };
  const top = best === undefined || allowed(best) ? best : bestOf(worth, allowed);
  const repair = dangerous
    ? bestOf(cure, (p) => allowed(p) && isRepairFound(s, heeded.dangers, p, cure), marks.repairs)
    : bestOf(worth, allowed, marks.repairs);
  const lead =
    dangerous ||
    (repair !== undefined && repair !== top && beyond(s, repair, top) >= numbers['repair-first']);
  const rung = lead ? undefined : nextRung(s, cure, { best: top === undefined ? 0 : worth[top]!, allowed });
  const wanted =
    lead && (dangerous || repair !== undefined)
      ? repair
      : (rung?.position ?? (top !== undefined && worth[top]! > 0 ? top : undefined));
  const { grounds, none = 0, impression = 0 } = heeded;
  const likeliest = (1 - none) * largest(belief.causes, belief.nothing);
  // What nobody wrote a rule for is not tuned around; but the way back to what was is open all the same.
  const isUntold = none > likeliest && (none - impression > likeliest || grounds?.lookedAt() === true);
  const leading = leadingBack(
    s,
    heeded,
    isUntold || wanted === undefined
      ? { wanted: undefined, cure: 0, isUntold }
      : { wanted: payoff.adjustments[wanted]!, cure: cure[wanted]! },
  );
  const back = leading ?? heeded.back;
  const home = back === undefined ? -1 : homeOf(s, back);
  const held = dangerous
    ? undefined
    : (answeredFirst(s, { wanted, cure, allowed, marks }, isForDanger) ??
      answeredFirst(s, { wanted, cure, allowed, marks }, (_, { beforePutBack }) => beforePutBack === true) ??
      (leading === undefined ? undefined : backFirst(s, leading, { wanted, home })) ??
      answeredFirst(s, { wanted, cure, allowed, marks }) ??
      heldBack(s, { wanted, worth, cure, allowed, marks }));
  const start = held?.position ?? wanted;
  // The way back is listed like any other step, by how likely it cures; no cause of the rules is its own.
  const likely = (p: number): number => (p === home ? back!.helps : cure[p]!);
  const behind = (): readonly number[] => {
    const rest: number[] = [];
    for (let p = 0; p < cure.length; p++)
      if (
        p !== start &&
        likely(p) >= numbers['least-cure'] &&
        allowed(p) &&
        !(held?.until?.(rule(p)) ?? false)
      )
        rest.push(p);
    return measuredFirst(
      s,
      searchOrder(
        rest.map(likely),
        rest.map((p) => rule(p).minutes + rules.numbers.asking['minutes-floor']),
      ).map((i) => rest[i]!),
      cure,
    );
  };
  const first = start === undefined ? undefined : payoff.adjustments[start]!;
  // Whoever looks ahead asks only what comes first.
  const ranking = once(() => (start === undefined ? [] : [start, ...behind()]).map(as));
  const refusals = once(() =>
    refusedOf(payoff.adjustments, {
      refusable: marks.refusable,
      cure,
      least: numbers['rung-cure'],
      refusal,
      ridden: heeded.ridden,
      inVain,
    }),
  );
  const advice = (
    verdict: Verdict,
    more: Partial<Pick<Advice, 'first' | 'because' | 'insteadOf'>> = {},
    listed = false,
  ): Advice => ({
    verdict,
    first: undefined,
    ...more,
    get ranked() {
      return listed ? ranking() : [];
    },
    get refused() {
      return refusals();
    },
    worthKnowing,
    ...(back === undefined ? {} : { back }),
  });
  if (dangerous) return advice('stop', { first, because: 'danger' }, true);
  if (start === wanted && isUntold)
    return advice('unknown', {
      because: impression > none - impression ? 'one-impression' : 'none-of-these',
    });
  if (
    start !== undefined &&
    start === wanted &&
    !lead &&
    rung === undefined &&
    isGuessAfterTest(s, { wanted: start, cure, ridden: heeded.ridden })
  )
    return advice('unknown');
  if (first !== undefined) {
    // What is not for this rider at all was never before the others.
    const ahead =
      best === top ? top : bestOf(worth, (p) => p === top || !isOutOfPlace(s, payoff.adjustments[p]!));
    const passed =
      ahead !== undefined && ahead !== top && worth[ahead]! > 0
        ? {
            adjustment: payoff.adjustments[ahead]!,
            why: refusal(ahead) ?? missingProof(s, payoff.adjustments[ahead]!)!,
          }
        : undefined;
    return advice(
      'change',
      {
        first,
        ...(held !== undefined
          ? {
              because: held.because,
              ...(held.insteadOf === undefined ? {} : { insteadOf: held.insteadOf }),
            }
          : lead
            ? { because: 'repair-first' as const }
            : rung !== undefined
              ? { because: 'next-rung' as const, insteadOf: rung.insteadOf }
              : passed === undefined
                ? {}
                : { because: 'held-back' as const, insteadOf: passed }),
      },
      true,
    );
  }
  const nothing = (1 - none) * belief.nothing;
  const sure = nothing >= rules.numbers.asking['nothing-off'] && (grounds?.foundNothing() ?? true);
  // Nothing found is not nothing off while a complaint stands; short of that, it is only not known yet.
  if (sure && grounds?.complaintStands(nothing) === true)
    return advice('unknown', { because: 'unexplained' });
  return advice(sure ? 'leave' : 'unknown');
}

function largest(numbers: Float64Array, most: number): number {
  let found = most;
  for (let i = 0; i < numbers.length; i++) if (numbers[i]! > found) found = numbers[i]!;
  return found;
}
