/** What becomes of every complaint a rider voiced: whether the first change is for it, or what is for it instead. */
import { isNeverNormal } from '../advice/checks.ts';
import { behindSigns, curedShare, leftBehind } from '../advice/behind-signs.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { missingProof, refusalOf } from '../advice/hold-back.ts';
import { waitsBehind } from '../advice/put-first.ts';
import { expectedCure } from '../advice/payoff.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Reading } from '../words/matcher.ts';
import { tellsBehind } from './asking/tells-behind.ts';
import type { Consultation } from './consult.ts';
import { isNoComplaint } from '../rulebase/no-complaint.ts';

export interface Complaint {
  /** the rider's words */
  readonly phrase: string;
  /** whether it is known: a sign of it was answered */
  readonly told: boolean;
  /** whether no sound bike does it: it is never only watched for */
  readonly neverNormal: boolean;
  /** share of what is behind the complaint that the first change cures, 0..1; null: not known yet, or no change */
  readonly helped: number | null;
  /** index of the adjustment that cures most of the rest, or of what waits for the first and is for it; undefined: none cures enough */
  readonly instead: number | undefined;
  /** index of the question that tells most about what is behind it; undefined: none tells enough; worked out when asked for */
  readonly ask: () => number | undefined;
}

/** With less than this behind a sign, strength times chance over its causes, nothing that could be off explains it. Judgement. */
const NOTHING_BEHIND = 0.003;

/**
 * @param c with the open questions ranked where the questions to ask are wanted
 * @param readings of what was said; denied ones are no complaints
 */
export function complaintsOf(
  model: Model,
  bench: PreparedBike,
  c: Consultation,
  readings: readonly Reading[],
): Complaint[] {
  // Most cases of a batch have no text.
  if (readings.length === 0) return [];
  const { questions, numbers } = model.rules;
  const waiting = waitsBehind(c.advice.because) ? c.advice.insteadOf?.adjustment : undefined;
  const given = new Map<number, number[]>();
  for (const { question, answer } of c.heard.evidence)
    given.set(question, [...(given.get(question) ?? []), answer]);
  const others = waysOut(model, bench, c);
  const seen = new Set<string>();
  const told = readings.flatMap((reading): Told[] => {
    const shown = [...reading.candidates, ...(reading.couldShow ?? [])];
    const asked = [...shown.map((x) => x.question), ...reading.separates];
    // Which end it is at, and since what, is a part of a complaint, and none by itself.
    const about = [...new Set(asked)].flatMap((id) => {
      const index = model.questionIndex.get(id);
      if (index === undefined || isNoComplaint(questions[index]!)) return [];
      // What was said without its end may be known to be of one by now.
      const at = given.has(index) ? [] : (questions[index]!.either ?? []).filter((end) => given.has(end));
      return at.length > 0 ? at : [index];
    });
    // The same few questions in other words are the same complaint.
    const key = about.join(' ');
    // What was said not to happen is no complaint, nor is what was read out of the same words.
    const denied = readings.some((other) => other.negated && reading.text.includes(other.text));
    if (denied || about.length === 0 || seen.has(key)) return [];
    seen.add(key);
    const signs = about.filter((q) => given.get(q)?.some((answer) => answer !== questions[q]!.default));
    const answered = signs.flatMap((question) =>
      given.get(question)!.map((answer) => ({ question, answer })),
    );
    const behind = behindSigns(model, c.belief, answered);
    const { first } = c.advice;
    const left = first === undefined ? behind : leftBehind(bench, behind, first);
    const open = about.find((q) => c.open.some((gain) => gain.question === q));
    const known = signs.length > 0 && behind.all >= NOTHING_BEHIND;
    if (signs.length === 0 && open === undefined) return [];
    const complaint = {
      phrase: reading.text,
      told: signs.length > 0,
      neverNormal: answered.some((sign) => isNeverNormal(model.rules, sign)),
      helped: known && first !== undefined ? curedShare(bench, behind, first) : null,
      instead:
        !known || left.all === 0
          ? undefined
          : waiting !== undefined && curedShare(bench, behind, waiting) >= numbers.advice['may-help']
            ? waiting
            : bestOther(model, others, first, (adjustment) => curedShare(bench, left, adjustment)),
      ask: () => (known ? tellsBehind(model, c.belief, answered, c.open) : undefined) ?? open,
    };
    return [{ complaint, known, from: reading.position, to: reading.position + reading.text.length }];
  });
  // Another reading of words whose answer is known already is no complaint beside it.
  return told.flatMap(({ complaint, known, from, to }) =>
    !known && told.some((other) => other.known && other.from <= from && to <= other.to) ? [] : [complaint],
  );
}

/**
 * Adjustments that may be named for a complaint beside the first: none while the bike is not to be ridden, nor what the
 * rules refuse, what lacks its proof, what was ridden and was no better, or a knob or a spring that hardly anything speaks
 * for. A rider tries a bar or a lever without harm.
 */
function waysOut(model: Model, bench: PreparedBike, c: Consultation): readonly number[] {
  if (c.advice.verdict === 'stop') return [];
  const { 'may-try': least } = model.rules.numbers.advice;
  const situation = { model, bench, belief: c.belief, known: c.heard.known, ridden: c.ridden };
  const cure = expectedCure(bench.payoff, c.belief.causes);
  return Array.from(bench.payoff.adjustments).filter((adjustment, position) => {
    const rule = model.rules.adjustments[adjustment]!;
    return (
      (rule.change === undefined || rule.kind === 'cockpit' || cure[position]! >= least) &&
      c.ridden?.has(adjustment) !== true &&
      refusalOf(situation, rule) === undefined &&
      missingProof(situation, adjustment) === undefined
    );
  });
}

interface Told {
  readonly complaint: Complaint;
  /** whether it was answered, and something is behind it */
  readonly known: boolean;
  readonly from: number;
  readonly to: number;
}

/** The adjustment other than the first that is worth most for it, if it cures enough; a rebuild is never the next thing. */
function bestOther(
  { rules }: Model,
  others: readonly number[],
  first: number | undefined,
  share: (adjustment: number) => number,
): number | undefined {
  const { 'may-help': least, 'minute-cost': minute } = rules.numbers.advice;
  let best: number | undefined;
  let most = -Infinity;
  for (const adjustment of others) {
    const { kind, minutes } = rules.adjustments[adjustment]!;
    const cured = share(adjustment);
    const worth = Math.round((cured - minutes * minute) * 1e10) / 1e10;
    if (adjustment !== first && kind !== 'rebuild' && cured >= least && worth > most)
      [best, most] = [adjustment, worth];
  }
  return best;
}
