/** An answer whose end is not known, seen beside what else was said: of which end it may still be. */
import { contradiction, type Known } from '../diagnosis/gates.ts';
import type { End } from '../bike/sheet.ts';
import type { Evidence } from '../diagnosis/belief.ts';
import type { Question } from '../rulebase/compiled.ts';
import type { CaseAnswer } from './case.ts';

/**
 * told: the same was also said of an end, so it counts there and not again. at: only one end is left, because the other
 * answered otherwise or the question does not apply there. either: both are left. nowhere: none is.
 */
export type WhichEnd =
  | { readonly is: 'told' }
  | { readonly is: 'at'; readonly question: number }
  | { readonly is: 'either' }
  | { readonly is: 'nowhere'; readonly against: string; readonly value: string };

/** @param ends the question at the front and at the rear, by index */
export function whichEnd(
  questions: readonly Question[],
  ends: readonly [number, number],
  { answer }: Pick<CaseAnswer, 'answer'>,
  known: Known,
): WhichEnd {
  const left: number[] = [];
  let against = { id: '', value: '' };
  for (const index of ends) {
    const question = questions[index]!;
    const shut = contradiction(question, known);
    const said = known.answers.get(question.id);
    if (shut === undefined && said === answer) return { is: 'told' };
    if (shut === undefined && said === undefined) left.push(index);
    else against = shut ?? { id: question.id, value: said! };
  }
  if (left.length === 2) return { is: 'either' };
  if (left.length === 1) return { is: 'at', question: left[0]! };
  return { is: 'nowhere', against: against.id, value: against.value };
}

/** What was noticed: every answer but the usual one of its question. What is found on a safety check is no sign of tuning. */
export function signsNoticed(questions: readonly Question[], evidence: readonly Evidence[]): Evidence[] {
  return evidence.filter(({ question, answer }) => {
    const { safety, default: usual } = questions[question]!;
    return !safety && answer !== usual;
  });
}

/**
 * The ends that something noticed is about.
 * @param where ride: only what was felt on it, which the rider speaks of himself; anywhere: what a look found too
 */
export function endsNoticed(
  questions: readonly Question[],
  evidence: readonly Evidence[],
  where: 'ride' | 'anywhere',
): ReadonlySet<End> {
  return new Set(
    signsNoticed(questions, evidence).flatMap(({ question }) => {
      const { end, how } = questions[question]!;
      return end === undefined || (where === 'ride' && how === 'stand') ? [] : [end];
    }),
  );
}
