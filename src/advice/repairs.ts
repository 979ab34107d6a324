/** How likely a repair mends what was found, and what no step would. */
import type { Danger } from '../diagnosis/gates.ts';
import { adjustmentFor } from './best-of.ts';
import type { Situation } from './hold-back.ts';

/** How likely a repair cures what the best step would not: what that step cures better needs no workshop. Positions. */
export function beyond({ bench, belief }: Situation, repair: number, top: number | undefined): number {
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
export function isRepairFound(
  s: Situation,
  dangers: readonly Danger[] | undefined,
  position: number,
  cure: Float64Array,
): boolean {
  const { adjustments } = s.bench.payoff;
  const mended = mends(s, dangers, adjustments[position]!, cure[position]!);
  const { 'likely-repair': likely, 'clear-end': clear } = s.model.rules.numbers.advice;
  if (mended < likely) return false;
  const { id, end } = s.model.rules.adjustments[adjustments[position]!]!;
  if (end === undefined) return true;
  // What is written for one end alone has no twin.
  const twin = adjustmentFor(
    s,
    (one) => one.end !== end && one.id === id.replace(end, end === 'front' ? 'rear' : 'front'),
  );
  return twin < 0 || mended >= clear * mends(s, dangers, adjustments[twin]!, cure[twin]!);
}

/**
 * How likely it mends what was found, where a dangerous answer was given: of all that the answer points to, the share of
 * what this cures. That something was found is certain, whatever else is believed.
 * @param cure how likely it mends anything: what counts where nobody says which answer it was
 */
function mends(
  { model, bench, belief, known }: Situation,
  dangers: readonly Danger[] | undefined,
  adjustment: number,
  cure: number,
): number {
  if (dangers === undefined) return cure;
  const { questions } = model.rules;
  const { cures } = bench.effect(adjustment);
  let most = 0;
  for (const danger of dangers) {
    if (isPlaceOpen(model, danger, known)) continue;
    const { question: id, answer } = danger;
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

/** Whether a question of safety that asks where it was found is not answered: then nobody knows what has to be mended. */
function isPlaceOpen(
  { rules: { questions } }: Situation['model'],
  { question, answer }: Danger,
  known: Situation['known'],
): boolean {
  return questions.some(
    ({ id, safety, earlyWhen }) =>
      safety &&
      known?.answers.has(id) !== true &&
      earlyWhen?.some((one) => one.id === question && one.values.includes(answer)) === true,
  );
}
