/** What the rules hold back: an adjustment that waits for a measurement or for its proofs, or that is refused. */
import { ENDS } from '../bike/sheet.ts';
import type { Belief } from '../diagnosis/belief.ts';
import { isOpen, saidBeside, type Known } from '../diagnosis/gates.ts';
import type { Model } from '../diagnosis/model.ts';
import { hasReading } from '../diagnosis/sheet-evidence.ts';
import { atEither, type Gate } from '../rulebase/compiled.ts';
import type { Adjustment, AnswersNeeded, Refusal } from '../rulebase/compiled-adjustment.ts';
import { decapital } from '../form/text.ts';
import { reasonIn } from '../rulebase/reasons.ts';
import { expectedWorth } from './payoff.ts';
import type { PreparedBike } from './prepared-bike.ts';
import type { InVain } from './refused.ts';

export interface Situation {
  readonly model: Model;
  readonly bench: PreparedBike;
  readonly belief: Belief;
  /** absent: nothing was answered */
  readonly known: Known | undefined;
  /** what was ridden on the bike as it stands, or tried before, and was no better, by adjustment; absent: nothing was */
  readonly ridden?: ReadonlyMap<number, InVain> | undefined;
}

/** Why an adjustment is not advised at all, in words; undefined where it is not refused. */
export function refusalOf(s: Situation, adjustment: Adjustment): string | undefined {
  return refusing(s, adjustment)?.why;
}

/** Why the answers leave it no room, in words: as good as at its stop. Undefined where they leave some. */
export function roomlessOf(s: Situation, adjustment: Adjustment): string | undefined {
  const refusal = refusing(s, adjustment);
  return refusal?.noRoom === true ? refusal.why : undefined;
}

function refusing(s: Situation, { refuseWhen }: Adjustment): Refusal | undefined {
  const { belief, known } = s;
  for (let i = 0; i < refuseWhen.length; i++) {
    const { answers, causes, below, unless, untilTested } = refuseWhen[i]!;
    if (
      isWithin(belief.causes, causes, below) &&
      mayBeGiven(answers, known) &&
      !unless.some((asked) => saidSo(asked, known)) &&
      !(untilTested !== undefined && isSpent(s, untilTested))
    )
      return refuseWhen[i];
  }
  return undefined;
}

type Bounds = readonly (readonly [cause: number, bound: number])[];

/** By index, because a pattern goes by way of an iterator, and every look ahead comes by here. */
function isWithin(chances: Float64Array, least: Bounds, below: Bounds): boolean {
  for (let i = 0; i < least.length; i++) if (chances[least[i]![0]]! < least[i]![1]) return false;
  for (let i = 0; i < below.length; i++) if (chances[below[i]![0]]! >= below[i]![1]) return false;
  return true;
}

/**
 * Whether a trial found one of these adjustments no better, and none is left of them that can be done and is worth a trial:
 * what waited for them would wait for ever.
 */
function isSpent({ model, bench: { payoff }, belief, ridden }: Situation, ids: readonly string[]): boolean {
  const { adjustments } = model.rules;
  const isTested = (index: number): boolean => ridden?.get(index)?.tested === true;
  const each = ids.map((id) => adjustments.findIndex((a) => a.id === id));
  if (!each.some(isTested)) return false;
  const worth = expectedWorth(payoff, belief.causes);
  // What cannot be done on this bike pays nothing off.
  return each.every((index) => isTested(index) || !(worth[payoff.adjustments.indexOf(index)]! > 0));
}

/** What is clear of an adjustment whatever is believed: that nothing holds it back, or that it lacks the proof of an answer. */
export const FREE = 1;
export const HELD = 2;
const UNCLEAR = 3;

const standings = new WeakMap<Known, { readonly payoff: PreparedBike['payoff']; readonly of: Uint8Array }>();

/** Of a position FREE, HELD or neither: a case asks it of the same answers hundreds of times. */
export function standingsOf(s: Situation): (position: number) => number {
  const { known = NOTHING_KNOWN } = s;
  const { payoff } = s.bench;
  let kept = standings.get(known);
  if (kept?.payoff !== payoff)
    standings.set(known, (kept = { payoff, of: new Uint8Array(payoff.adjustments.length) }));
  const { of } = kept;
  return (position) => (of[position] ||= standingOf(s, payoff.adjustments[position]!));
}

function standingOf(s: Situation, adjustment: number): number {
  const { refuseWhen, proofs } = s.model.rules.adjustments[adjustment]!;
  if (proofs === undefined) return refuseWhen.length === 0 ? FREE : UNCLEAR;
  return unprovedOf(s, adjustment) === undefined ? UNCLEAR : HELD;
}

/** Which proof is missing before an adjustment may be first, in words; undefined when none is. */
export function missingProof(s: Situation, adjustment: number): string | undefined {
  const { rules } = s.model;
  const { proofs } = rules.adjustments[adjustment]!;
  if (proofs === undefined) return undefined;
  const open = proofs.blocked.find((id) => {
    const index = rules.adjustments.findIndex((a) => a.id === id);
    return (
      index >= 0 && s.bench.possible[index]!.can && roomlessOf(s, rules.adjustments[index]!) === undefined
    );
  });
  if (open !== undefined) {
    const { do: what } = rules.adjustments.find((a) => a.id === open)!;
    return reasonIn(rules.reasons, 'smaller-step', { do: decapital(what) });
  }
  const unproved = unprovedOf(s, adjustment);
  if (unproved !== undefined) return reasonIn(rules.reasons, 'unproved', { ask: askOf(s, unproved) });
  const { cures } = s.bench.effect(adjustment);
  let likeliest = 0;
  for (let c = 0; c < cures.length; c++)
    if (cures[c]! > 0) likeliest = Math.max(likeliest, s.belief.causes[c]!);
  return likeliest >= proofs.likely ? undefined : reasonIn(rules.reasons, 'unsure');
}

/** The first question whose answer an adjustment lacks as its proof, by id; undefined where it lacks none. */
export function unprovedOf({ model: { rules }, known }: Situation, adjustment: number): string | undefined {
  return rules.adjustments[adjustment]!.proofs?.answered.find((asked) => !saidSo(asked, known))?.id;
}

/**
 * Whether an adjustment lacks the proof of an answer to a question that does not apply, or not yet, or that the rider
 * answered otherwise from memory: then it is not for this rider, and nobody need hear why it is passed over.
 */
export function isOutOfPlace(
  { model: { rules, questionIndex }, known }: Situation,
  adjustment: number,
): boolean {
  const { proofs } = rules.adjustments[adjustment]!;
  if (proofs === undefined) return false;
  return proofs.answered.some((asked) => {
    if (saidSo(asked, known)) return false;
    const question = rules.questions[questionIndex.get(asked.id)!]!;
    return (
      !isOpen(question, known ?? NOTHING_KNOWN) ||
      (question.how === 'recall' && known?.answers.has(asked.id) === true)
    );
  });
}

const NOTHING_KNOWN: Known = { answers: new Map(), bike: () => undefined };

/**
 * The first gauge that an adjustment waits for, by question id; undefined when all are read. One that only some answers ask
 * for is not waited for from a rider who cannot tell.
 */
export function unmeasured(s: Situation, { measureFirst }: Adjustment): string | undefined {
  return measureFirst.find(
    ({ question, when }) =>
      applies(s, question) &&
      !isMeasured(s, question) &&
      !isRead(s, question) &&
      (when === undefined ||
        (s.known?.cannotTell?.has(question) !== true && when.some((answers) => given(answers, s.known)))),
  )?.question;
}

/** Whether the bike has what the gauge reads: of a coil that is wound up too far sag says nothing. */
function applies({ model: { rules, questionIndex }, known }: Situation, question: string): boolean {
  return rules.questions[questionIndex.get(question)!]!.gates.every(({ on, id, values }) => {
    const is = on === 'bike' ? known?.bike(id) : undefined;
    return is === undefined || values.includes(is);
  });
}

/** Whether a gauge was read: its question answered, or its number on the bike sheet beside its target. */
export function isMeasured(s: Situation, question: string): boolean {
  return s.known?.answers.has(question) === true || isOnSheet(s, question);
}

/** Whether the number of a gauge is on the bike sheet beside its target. */
export function isOnSheet({ model, bench }: Situation, question: string): boolean {
  const measures = model.rules.questions[model.questionIndex.get(question)!]!.measures;
  return bench.findings.some((f) => model.rules.settings[f.setting]!.id === measures);
}

/** Whether its number is on the bike sheet, be it without a target: then it is not measured once more. */
function isRead({ model: { rules, questionIndex }, bench: { sheet } }: Situation, question: string): boolean {
  const { measures } = rules.questions[questionIndex.get(question)!]!;
  const setting = rules.settings.find(({ id }) => id === measures);
  return sheet !== undefined && setting !== undefined && hasReading(sheet, setting);
}

export function askOf({ model }: Pick<Situation, 'model'>, question: string): string {
  return model.rules.questions[model.questionIndex.get(question)!]!.ask;
}

/** Whether each of these was answered so. */
export function given(answers: AnswersNeeded, known: Known | undefined): boolean {
  return answers.every((asked) => saidSo(asked, known));
}

/**
 * Whether each of these was answered so, or at an end that is not known: what holds back a change holds it back at both
 * ends then. A proof is not given by such an answer; see `given`.
 */
export function mayBeGiven(answers: AnswersNeeded, known: Known | undefined): boolean {
  return answers.every(
    (asked) =>
      saidSo(asked, known) ||
      (endOpen(asked.id, known) && saidSo({ ...asked, id: atEither(asked.id) }, known)),
  );
}

/** What goes without saying after another answer counts as said; what is not written on the sheet is not so. */
function saidSo({ on, id, values }: Gate, known: Known | undefined): boolean {
  const said = on === 'bike' ? known?.bike(id) : (known?.answers.get(id) ?? known?.implied?.get(id));
  if (said === undefined) return false;
  return values.includes(said) || (on === 'question' && saidBeside(known!, id, values));
}

/** Whether an answer whose end is not known may be of this end: one that was found to be of an end is answered there. */
function endOpen(id: string, known: Known | undefined): boolean {
  const either = atEither(id);
  return (
    either !== id &&
    known?.answers.has(either) === true &&
    !ENDS.some((end) => known.answers.has(id.replace(/@\w+$/, `@${end}`)))
  );
}
