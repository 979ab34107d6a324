/** Belief → the one thing to do first, and what waits. */
import type { Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Danger, Known } from '../diagnosis/gates.ts';
import type { Adjustment } from '../rulebase/compiled.ts';
import type { PreparedBike } from './prepared-bike.ts';
import {
  given,
  isMeasured,
  isOutOfPlace,
  mayBeGiven,
  missingProof,
  refusalOf,
  unmeasured,
  type Situation,
} from './hold-back.ts';
import { expectedCure, expectedWorth } from './payoff.ts';
import { searchOrder } from './search-order.ts';
import { gaugeBefore, leads, type WayBack } from './way-back.ts';
import { isWorthKnowing } from './worth-knowing.ts';

/** An adjustment that cures anything with less than this is not worth naming. */
const LEAST_CHANCE = 0.05;
/** Less than this behind a danger is a guess, and the text of the danger says enough. */
const LIKELY_REPAIR = 0.5;
/** So many times as likely as the same repair at the other end, or nobody knows which end it is. */
const CLEAR_END = 2;
/** A rung that cures less than this is passed over for the one after it. */
const LEAST_RUNG = 0.25;

/** change: do this; leave: nothing is off; unknown: leaving alone is best, but not for certain; stop: do not ride. */
export type Verdict = 'change' | 'leave' | 'unknown' | 'stop';

export const BECAUSE = [
  'repair-first',
  'danger',
  'next-rung',
  'measure-first',
  'measured-first',
  'held-back',
  'put-back',
  'none-of-these',
  'one-impression',
  'unexplained',
] as const;
export type Because = (typeof BECAUSE)[number];

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
  readonly refused: readonly { readonly adjustment: number; readonly why: string }[];
  /** whether knowing the causes would be worth at least so much, in fixes; a look at many sets, so only when asked for */
  readonly worthKnowing: (enough: number) => boolean;
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
  /** what was ridden on the bike as it stands, or tried before, and was no better, by adjustment */
  readonly ridden?: ReadonlyMap<number, InVain> | undefined;
}

/** A step that was ridden and was no better. */
export interface InVain {
  /** why it is not named */
  readonly why: string;
  /** it is named all the same where it cures anything as likely as this; absent: never */
  readonly unless?: number;
  /** half of it, as a change, where it was rated worse and as little was never turned */
  readonly less?: string;
}

/** What a case has to show; asked only where the advice hangs on it. */
export interface Grounds {
  /** whether "nothing is off" has something to stand on */
  readonly foundNothing: () => boolean;
  /** whether more was noticed than clean looks can make nothing of */
  readonly complaintStands: () => boolean;
  /** whether the bike was looked at; one impression told throughout leads only then */
  readonly lookedAt: () => boolean;
}

export function advise(model: Model, bench: PreparedBike, belief: Belief, heeded: Heeded): Advice {
  const { dangerous, known, back } = heeded;
  const { rules } = model;
  const { payoff } = bench;
  const s: Situation = { model, bench, belief, known };
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
  const allowed = (p: number): boolean =>
    refusal(p) === undefined && missingProof(s, payoff.adjustments[p]!) === undefined;
  const top = best === undefined || allowed(best) ? best : bestOf(worth, allowed);
  const repair = dangerous
    ? bestOf(cure, (p) => allowed(p) && isRepairFound(s, heeded.dangers, p, cure), marks.repairs)
    : bestOf(worth, allowed, marks.repairs);
  const lead =
    dangerous ||
    (repair !== undefined &&
      repair !== top &&
      beyond(s, repair, top) >= rules.numbers.advice['repair-first']);
  const rung = lead ? undefined : nextRung(s, cure, { best: top === undefined ? 0 : worth[top]!, allowed });
  const wanted =
    lead && (dangerous || repair !== undefined)
      ? repair
      : (rung?.position ?? (top !== undefined && worth[top]! > 0 ? top : undefined));
  const home = back === undefined ? -1 : adjustmentFor(s, ({ kind }) => kind === 'put-back');
  const held = dangerous
    ? undefined
    : (answeredFirst(s, { wanted, allowed, marks }, isForDanger) ??
      (back === undefined || !leads(s, back, wanted === undefined ? 0 : cure[wanted]!)
        ? undefined
        : backFirst(s, back, { wanted, home })) ??
      answeredFirst(s, { wanted, allowed, marks }) ??
      heldBack(s, { wanted, worth, cure, allowed, marks }));
  const start = held?.position ?? wanted;
  // The way back is listed like any other step, by how likely it cures; no cause of the rules is its own.
  const likely = (p: number): number => (p === home ? back!.helps : cure[p]!);
  const rest: number[] = [];
  for (let p = 0; p < cure.length; p++)
    if (p !== start && likely(p) >= LEAST_CHANCE && allowed(p) && !(held?.until?.(rule(p)) ?? false))
      rest.push(p);
  const others = measuredFirst(
    s,
    searchOrder(
      rest.map(likely),
      rest.map((p) => rule(p).minutes + rules.numbers.asking['minutes-floor']),
    ).map((i) => rest[i]!),
    cure,
  );
  const ranked = (start === undefined ? [] : [start, ...others]).map(as);
  const refused: Advice['refused'][number][] = [];
  for (const p of marks.refusable) {
    const why = cure[p]! >= LEAST_RUNG ? refusal(p) : undefined;
    if (why !== undefined) refused.push({ adjustment: payoff.adjustments[p]!, why });
  }
  for (const adjustment of heeded.ridden?.keys() ?? []) {
    const p = payoff.adjustments.indexOf(adjustment);
    const why = p >= 0 && cure[p]! >= LEAST_RUNG ? inVain(p) : undefined;
    if (why !== undefined && !refused.some((r) => r.adjustment === adjustment))
      refused.push({ adjustment, why });
  }
  if (dangerous)
    return {
      verdict: 'stop',
      ranked,
      first: ranked[0]?.adjustment,
      because: 'danger',
      refused,
      worthKnowing,
    };
  const { grounds, none = 0, impression = 0 } = heeded;
  const likeliest = (1 - none) * largest(belief.causes, belief.nothing);
  // What nobody wrote a rule for is not tuned around.
  if (start === wanted && none > likeliest && (none - impression > likeliest || grounds?.lookedAt() === true))
    return {
      verdict: 'unknown',
      ranked: [],
      first: undefined,
      because: impression > none - impression ? 'one-impression' : 'none-of-these',
      refused,
      worthKnowing,
    };
  if (ranked.length > 0) {
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
    return {
      verdict: 'change',
      ranked,
      first: ranked[0]!.adjustment,
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
      refused,
      worthKnowing,
    };
  }
  const sure =
    (1 - none) * belief.nothing >= rules.numbers.asking['nothing-off'] && (grounds?.foundNothing() ?? true);
  // Nothing found is not nothing off while a complaint stands; short of that, it is only not known yet.
  if (sure && grounds?.complaintStands() === true)
    return {
      verdict: 'unknown',
      ranked: [],
      first: undefined,
      because: 'unexplained',
      refused,
      worthKnowing,
    };
  return { verdict: sure ? 'leave' : 'unknown', ranked: [], first: undefined, refused, worthKnowing };
}

/** How likely a repair cures what the best step would not: what that step cures better needs no workshop. Positions. */
function beyond({ bench, belief }: Situation, repair: number, top: number | undefined): number {
  const cures = (position: number): Float64Array => bench.effect(bench.payoff.adjustments[position]!).cures;
  const own = cures(repair);
  const others = top === undefined ? undefined : cures(top);
  return others === undefined ? sumOf(belief.causes, own) : sumAbove(belief.causes, own, others);
}

/* Loops by themselves: what looks ahead asks for them dozens of times, and no more than they should be compiled for it. */

function sumOf(causes: Float64Array, own: Float64Array): number {
  let sum = 0;
  for (let c = 0; c < own.length; c++) sum += causes[c]! * own[c]!;
  return sum;
}

function sumAbove(causes: Float64Array, own: Float64Array, others: Float64Array): number {
  let sum = 0;
  for (let c = 0; c < own.length; c++) sum += causes[c]! * Math.max(0, own[c]! - others[c]!);
  return sum;
}

/** Whether a repair likely mends what was found, and is not as likely to be needed at the other end instead. */
function isRepairFound(
  s: Situation,
  dangers: readonly Danger[] | undefined,
  position: number,
  cure: Float64Array,
): boolean {
  const { adjustments } = s.bench.payoff;
  const mended = mends(s, dangers, adjustments[position]!, cure[position]!);
  if (mended < LIKELY_REPAIR) return false;
  const { id, end } = s.model.rules.adjustments[adjustments[position]!]!;
  if (end === undefined) return true;
  // What is written for one end alone has no twin.
  const twin = adjustmentFor(
    s,
    (one) =>
      one.end !== end && one.id !== id && one.id === id.replace(end, end === 'front' ? 'rear' : 'front'),
  );
  return twin < 0 || mended >= CLEAR_END * mends(s, dangers, adjustments[twin]!, cure[twin]!);
}

/**
 * How likely it mends what was found, where a dangerous answer was given: of all that the answer points to, the share of
 * what this cures. That something was found is certain, whatever else is believed.
 * @param cure how likely it mends anything: what counts where nobody says which answer it was
 */
function mends(
  { model, bench, belief }: Situation,
  dangers: readonly Danger[] | undefined,
  adjustment: number,
  cure: number,
): number {
  if (dangers === undefined) return cure;
  const { questions } = model.rules;
  const { cures } = bench.effect(adjustment);
  let most = 0;
  for (const { question: id, answer } of dangers) {
    const question = questions[model.questionIndex.get(id)!]!;
    const found = question.answers.findIndex((one) => one.id === answer);
    // Where the end is not known, what it points to at both ends.
    const links = question.either?.flatMap((index) => questions[index]!.links) ?? question.links;
    let cured = 0;
    let all = 0;
    for (const [cause, sign] of links) {
      if (sign !== found) continue;
      all += belief.causes[cause]!;
      cured += belief.causes[cause]! * cures[cause]!;
    }
    if (all > 0) most = Math.max(most, cured / all);
  }
  return most;
}

interface Wanted {
  /** position of what would be first */
  readonly wanted: number | undefined;
  readonly worth: Float64Array;
  readonly cure: Float64Array;
  readonly allowed: (position: number) => boolean;
  readonly marks: Marks;
}

/** Positions of the few adjustments that a step of the advice is about; the same for every case on a bike. */
interface Marks {
  readonly repairs: readonly number[];
  /** what the rules may refuse */
  readonly refusable: readonly number[];
  /** what answers may put before every change */
  readonly answered: readonly number[];
  /** what a gauge may put before clicks */
  readonly measured: readonly number[];
}

const marked = new WeakMap<PreparedBike['payoff'], Marks>();

function marksOf({ payoff, rules }: PreparedBike): Marks {
  let marks = marked.get(payoff);
  if (marks === undefined) {
    const those = (has: (adjustment: Adjustment) => boolean): number[] =>
      [...payoff.adjustments.keys()].filter((p) => has(rules.adjustments[payoff.adjustments[p]!]!));
    marks = {
      repairs: those((a) => a.kind === 'repair'),
      refusable: those((a) => a.refuseWhen.length > 0),
      answered: those((a) => a.firstWhenAnswered !== undefined),
      measured: those((a) => a.firstWhenMeasured.length > 0),
    };
    marked.set(payoff, marks);
  }
  return marks;
}

interface Held {
  readonly position: number;
  readonly because: Because;
  readonly insteadOf?: { readonly adjustment: number; readonly why: string };
  /** what is not named behind it until it was done; absent: nothing */
  readonly until?: (adjustment: Adjustment) => boolean;
}

/** Position of the first adjustment like that; -1 where no rule is. */
function adjustmentFor({ model, bench }: Situation, is: (adjustment: Adjustment) => boolean): number {
  return bench.payoff.adjustments.findIndex((index) => is(model.rules.adjustments[index]!));
}

/** What made it worse and is still there, before anything is added to it; undefined where no rule can put back. */
function backFirst(
  s: Situation,
  back: WayBack,
  { wanted, home }: { readonly wanted: number | undefined; readonly home: number },
): Held | undefined {
  if (home < 0) return undefined;
  const { adjustments } = s.bench.payoff;
  const gauge = gaugeBefore(s, back);
  const reading = gauge === undefined ? -1 : adjustmentFor(s, ({ reads }) => reads === gauge);
  if (reading >= 0)
    return {
      position: reading,
      because: 'measure-first',
      insteadOf: { adjustment: adjustments[home]!, why: 'it needs this measurement first' },
    };
  return {
    position: home,
    because: 'put-back',
    ...(wanted === undefined
      ? {}
      : {
          insteadOf: {
            adjustment: adjustments[wanted]!,
            why: 'what was tried made it worse and is still on the bike',
          },
        }),
  };
}

/** Whether what it reads may be a danger: that is looked for before anything is put back. */
function isForDanger({ model: { rules, questionIndex } }: Situation, { reads }: Adjustment): boolean {
  return reads !== undefined && Object.keys(rules.questions[questionIndex.get(reads)!]!.dangerous).length > 0;
}

/** Whether what it reads was looked at; who cannot tell has looked, but not for a danger. */
function isLooked(s: Situation, adjustment: Adjustment): boolean {
  const { reads } = adjustment;
  return (
    reads !== undefined &&
    (isMeasured(s, reads) || (s.known?.cannotTell?.has(reads) === true && !isForDanger(s, adjustment)))
  );
}

/**
 * What the rider's answers put before every change: undoing the change with which it began, or a look, until it was made.
 * @param only which of them are wanted; absent: all
 */
function answeredFirst(
  s: Situation,
  { wanted, allowed, marks: { answered } }: Pick<Wanted, 'wanted' | 'allowed' | 'marks'>,
  only: (s: Situation, adjustment: Adjustment) => boolean = () => true,
): Held | undefined {
  const { adjustments } = s.bench.payoff;
  const at = (p: number): Adjustment => s.model.rules.adjustments[adjustments[p]!]!;
  // A look is wanted as well where the end of what calls for it is not known; undoing something needs to know.
  const called = ({ reads, firstWhenAnswered: answers }: Adjustment): boolean =>
    (reads === undefined ? given : mayBeGiven)(answers!, s.known);
  const position = answered.find((p) => called(at(p)) && only(s, at(p)) && !isLooked(s, at(p)) && allowed(p));
  if (position === undefined || position === wanted) return undefined;
  const isLook = at(position).reads !== undefined;
  // Before a look for a danger nothing is named but repairs, and where nothing waits for a look, nothing at all.
  const until =
    isLook && (wanted === undefined || isForDanger(s, at(position)))
      ? ({ kind }: Adjustment): boolean => wanted === undefined || kind !== 'repair'
      : undefined;
  const why = isLook ? 'the answers call for this check first' : 'the answers say it started with a change';
  return {
    position,
    because: isLook ? 'measure-first' : 'put-back',
    ...(wanted === undefined || until?.(at(wanted)) === true
      ? {}
      : { insteadOf: { adjustment: adjustments[wanted]!, why } }),
    ...(until === undefined ? {} : { until }),
  };
}

/** What goes before the wanted one: a spring whose gauge reads off before a click, and a gauge before what waits for it. */
function heldBack(
  s: Situation,
  { wanted, worth, cure, allowed, marks: { measured: gauged } }: Wanted,
): Held | undefined {
  if (wanted === undefined) return undefined;
  const { payoff } = s.bench;
  const { adjustments } = s.model.rules;
  const at = (p: number): Adjustment => adjustments[payoff.adjustments[p]!]!;
  const own = at(wanted);
  const measured =
    own.kind === 'click'
      ? bestOf(worth, (p) => at(p).end === own.end && readsOff(s, at(p), cure[p]!) && allowed(p), gauged)
      : undefined;
  const next = measured ?? wanted;
  const gauge = unmeasured(s, at(next));
  const reading =
    gauge === undefined ? -1 : payoff.adjustments.findIndex((index) => adjustments[index]!.reads === gauge);
  if (reading >= 0)
    return {
      position: reading,
      because: 'measure-first' as const,
      insteadOf: { adjustment: payoff.adjustments[next]!, why: 'it needs this measurement first' },
    };
  return measured === undefined
    ? undefined
    : {
        position: measured,
        because: 'measured-first' as const,
        insteadOf: {
          adjustment: payoff.adjustments[wanted]!,
          why: 'a measured number that is off comes before any click',
        },
      };
}

/** Whether a gauge was read that makes what this cures likely. */
function readsOff(s: Situation, { firstWhenMeasured }: Adjustment, cure: number): boolean {
  return (
    cure >= s.model.rules.numbers.advice['measured-first'] &&
    firstWhenMeasured.some((id) => isMeasured(s, id))
  );
}

/** In the same order, but what was measured off before the clicks of its end. */
function measuredFirst(s: Situation, order: readonly number[], cure: Float64Array): readonly number[] {
  const { adjustments } = s.model.rules;
  const at = (p: number): Adjustment => adjustments[s.bench.payoff.adjustments[p]!]!;
  const early = order.filter((p) => readsOff(s, at(p), cure[p]!));
  if (early.length === 0) return order;
  const out: number[] = [];
  for (const p of order) {
    if (at(p).kind === 'click') {
      for (const e of early) if (at(e).end === at(p).end && !out.includes(e)) out.push(e);
    }
    if (!out.includes(p)) out.push(p);
  }
  return out;
}

/**
 * Where the best adjustment has no knob or no room, the first of its next rungs that can be done and cures anything:
 * the other adjuster of the pair, the spring, a service.
 */
function nextRung(
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
    if (position >= 0 && cure[position]! >= LEAST_RUNG && allowed(position))
      return { position, insteadOf: { adjustment: blockedOne, why: reason.why } };
  }
  return undefined;
}

/**
 * Position of the largest, rounded so that equal ones go to the first; undefined when none is allowed.
 * @param among the positions looked at, rising; absent: all
 */
function bestOf(
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

function largest(numbers: Float64Array, most: number): number {
  let found = most;
  for (let i = 0; i < numbers.length; i++) if (numbers[i]! > found) found = numbers[i]!;
  return found;
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
