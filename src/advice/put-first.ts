/** What goes before the step that looks best: the way back, a look, a gauge, or what a gauge read off. */
import type { Known } from '../diagnosis/gates.ts';
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';
import { reasonIn } from '../rulebase/reasons.ts';
import { bestOf } from './best-of.ts';
import { askOf, given, isMeasured, mayBeGiven, unmeasured, type Situation } from './hold-back.ts';
import type { PreparedBike } from './prepared-bike.ts';
import { isUndoing, likelyUndone } from './undoing.ts';
import type { Held } from './way-back.ts';

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

/** Whether what looked best comes after what is first: it waits for it, and is not refused. */
export function waitsBehind(because: Because | null | undefined): boolean {
  return because === 'put-back' || because === 'measure-first' || because === 'measured-first';
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

export function marksOf({ payoff, rules }: PreparedBike): Marks {
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

/** Whether what it reads may be a danger: that is looked for before anything is put back. */
export function isForDanger({ model: { rules, questionIndex } }: Situation, { reads }: Adjustment): boolean {
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
 * What the rider's answers put before every change: a look, until it was made, a repair, or undoing the change with which it
 * began, unless that is far less likely to cure it than the best step.
 * @param only which of them are wanted; absent: all
 */
export function answeredFirst(
  s: Situation,
  { wanted, cure, allowed, marks: { answered } }: Pick<Wanted, 'wanted' | 'cure' | 'allowed' | 'marks'>,
  only: (s: Situation, adjustment: Adjustment) => boolean = () => true,
): Held | undefined {
  const called = calledFor(s, answered);
  // Most cases call for none, and a look ahead asks hundreds of times.
  if (called.length === 0) return undefined;
  const { adjustments } = s.bench.payoff;
  const at = (p: number): Adjustment => s.model.rules.adjustments[adjustments[p]!]!;
  const least = wanted === undefined ? 0 : s.model.rules.numbers.advice['put-back'] * cure[wanted]!;
  const isUnlikely = (p: number): boolean => isUndoing(at(p)) && likelyUndone(s, p, cure) < least;
  const position = called.find((p) => only(s, at(p)) && !isLooked(s, at(p)) && !isUnlikely(p) && allowed(p));
  if (position === undefined || position === wanted) return undefined;
  const isLook = at(position).reads !== undefined;
  // Before a look for a danger nothing is named but repairs, and where nothing waits for a look, nothing at all.
  const until =
    isLook && (wanted === undefined || isForDanger(s, at(position)))
      ? ({ kind }: Adjustment): boolean => wanted === undefined || kind !== 'repair'
      : undefined;
  const isRepair = at(position).kind === 'repair';
  const isBack = isUndoing(at(position));
  const why = reasonIn(
    s.model.rules.reasons,
    isLook
      ? 'look-first'
      : isRepair
        ? 'repair-first'
        : isBack
          ? 'began-with-change'
          : at(position).kind === 'habit'
            ? 'seen-first'
            : 'measured-first',
  );
  return {
    position,
    because: isLook ? 'measure-first' : isRepair ? 'repair-first' : isBack ? 'put-back' : 'measured-first',
    ...(wanted === undefined || until?.(at(wanted)) === true
      ? {}
      : { insteadOf: { adjustment: adjustments[wanted]!, why } }),
    ...(until === undefined ? {} : { until }),
  };
}

const calls = new WeakMap<
  Known,
  { readonly answered: readonly number[]; readonly found: readonly number[] }
>();

/** Which of these positions the answers call for, whatever is believed: a case asks that of the same answers many times. */
function calledFor({ model, bench, known }: Situation, answered: readonly number[]): readonly number[] {
  if (known === undefined) return [];
  const before = calls.get(known);
  if (before?.answered === answered) return before.found;
  const found = answered.filter((p) => {
    const { reads, firstWhenAnswered } = model.rules.adjustments[bench.payoff.adjustments[p]!]!;
    // A look is wanted as well where the end of what calls for it is not known; undoing or repairing needs to know.
    return firstWhenAnswered!.some((one) => (reads === undefined ? given : mayBeGiven)(one, known));
  });
  calls.set(known, { answered, found });
  return found;
}

/** What goes before the wanted one: a spring whose gauge reads off before a click, and a gauge before what waits for it. */
export function heldBack(
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
  const around = gauge === undefined ? undefined : aroundGauge(s, gauge, { worth, cure, allowed });
  if (around !== undefined)
    return {
      position: around,
      because: 'held-back' as const,
      insteadOf: {
        adjustment: payoff.adjustments[next]!,
        why: reasonIn(s.model.rules.reasons, 'not-measured', { ask: askOf(s, gauge!) }),
      },
    };
  if (reading >= 0)
    return {
      position: reading,
      because: 'measure-first' as const,
      insteadOf: {
        adjustment: payoff.adjustments[next]!,
        why: reasonIn(s.model.rules.reasons, 'measure-first'),
      },
    };
  return measured === undefined
    ? undefined
    : {
        position: measured,
        because: 'measured-first' as const,
        insteadOf: {
          adjustment: payoff.adjustments[wanted]!,
          why: reasonIn(s.model.rules.reasons, 'measured-first'),
        },
      };
}

/** For who cannot read a gauge: the best step that waits for none and is no mere guess; undefined where he was not asked. */
function aroundGauge(
  s: Situation,
  gauge: string,
  { worth, cure, allowed }: Pick<Wanted, 'worth' | 'cure' | 'allowed'>,
): number | undefined {
  if (s.known?.cannotTell?.has(gauge) !== true) return undefined;
  const { adjustments, numbers } = s.model.rules;
  return bestOf(
    worth,
    (p) =>
      worth[p]! > 0 &&
      cure[p]! >= numbers.advice['rung-cure'] &&
      unmeasured(s, adjustments[s.bench.payoff.adjustments[p]!]!) === undefined &&
      allowed(p),
  );
}

/** Whether a gauge was read that makes what this cures likely. */
function readsOff(s: Situation, { firstWhenMeasured }: Adjustment, cure: number): boolean {
  return (
    cure >= s.model.rules.numbers.advice['measured-first'] &&
    firstWhenMeasured.some((id) => isMeasured(s, id))
  );
}

/** In the same order, but what was measured off before the clicks of its end. */
export function measuredFirst(s: Situation, order: readonly number[], cure: Float64Array): readonly number[] {
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
