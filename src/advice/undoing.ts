/** Undoing the change with which it began: which answer says what that was, and what such a change brings. */
import { saidBeside, type Known } from '../diagnosis/gates.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Question } from '../rulebase/compiled.ts';
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';
import { given, type Situation } from './hold-back.ts';

/** What was changed, by the answers that say so: positions in the question's own list. */
export interface Undone {
  readonly question: Question;
  readonly answers: readonly number[];
}

/** Whether answers put it before every change, and it is no look, no repair and no setting, part or number that was found wrong. */
export function isUndoing({ reads, kind, change, firstWhenAnswered }: Adjustment): boolean {
  return firstWhenAnswered !== undefined && reads === undefined && kind === 'habit' && change === undefined;
}

/** The change that it undoes, by its answers; none where they do not call for it. Of the answers that put it first, the one given with a choice says which change it was. */
export function undoneBy(
  { rules, questionIndex }: Pick<Model, 'rules' | 'questionIndex'>,
  adjustment: Adjustment,
  known: Known | undefined,
): Undone[] {
  if (known === undefined || !isUndoing(adjustment)) return [];
  const called = adjustment.firstWhenAnswered!.filter((answers) => given(answers, known));
  return called.flat().flatMap(({ id, values: allowed }) => {
    const question = rules.questions[questionIndex.get(id) ?? -1];
    if (allowed.length < 2 || question === undefined) return [];
    const answers = question.answers.flatMap((a, i) =>
      allowed.includes(a.id) && (known.answers.get(id) === a.id || saidBeside(known, id, [a.id])) ? [i] : [],
    );
    return answers.length === 0 ? [] : [{ question, answers }];
  });
}

/**
 * What it cures beside its own: what such a change brings, it takes away.
 * @param cures what the adjustment cures by itself, a share a cause
 */
export function withBrought(cures: Float64Array, undone: readonly Undone[]): Float64Array {
  const out = Float64Array.from(cures);
  for (const { question, answers } of undone)
    for (const [cause, answer, strength] of question.links)
      if (answers.includes(answer)) out[cause] = Math.max(out[cause]!, strength);
  return out;
}

/**
 * How likely undoing a change cures anything: what the rules say of it by itself, or the likeliest of what such a change brings.
 * That is counted whole: it got worse with the change, so what is there and could have come with it did.
 */
export function likelyUndone(
  { model, bench, belief, known }: Situation,
  position: number,
  cure: Float64Array,
): number {
  const adjustment = bench.payoff.adjustments[position]!;
  const undone = undoneBy(model, model.rules.adjustments[adjustment]!, known);
  const own = bench.effect(adjustment).cures;
  return withBrought(own, undone).reduce(
    (most, share, cause) => Math.max(most, (share > own[cause]! ? 1 : share) * belief.causes[cause]!),
    cure[position]!,
  );
}
