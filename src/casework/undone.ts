/**
 * What began with a change: undoing that change takes away what such a change brings. The rules say which answers put it
 * first, and the one of them that was given with a choice says which change it was and what that brings.
 */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { prospectOf } from '../advice/help-harm.ts';
import type { Model } from '../diagnosis/model.ts';
import { saidBeside } from '../diagnosis/gates.ts';
import type { Question } from '../rulebase/compiled.ts';
import type { Consultation } from './consult.ts';

/** The change that is undone first, by its answers; none where the first step is another. */
export function undoneFirst(
  { rules, questionIndex }: Model,
  { advice, back, heard }: Pick<Consultation, 'advice' | 'back' | 'heard'>,
): { readonly question: Question; readonly answers: readonly number[] }[] {
  if (advice.because !== 'put-back' || back !== undefined || advice.first === undefined) return [];
  const needed = (rules.adjustments[advice.first]!.firstWhenAnswered ?? []).flat();
  return needed.flatMap(({ id, values: allowed }) => {
    const question = rules.questions[questionIndex.get(id) ?? -1];
    if (allowed.length < 2 || question === undefined) return [];
    const answers = question.answers.flatMap((a, i) =>
      allowed.includes(a.id) && (heard.known.answers.get(id) === a.id || saidBeside(heard.known, id, [a.id]))
        ? [i]
        : [],
    );
    return answers.length === 0 ? [] : [{ question, answers }];
  });
}

/** The bike on which the first step, where it undoes what it began with, cures what that change brings. */
export function withUndone(model: Model, bench: PreparedBike, c: Consultation): PreparedBike {
  const undone = undoneFirst(model, c);
  const first = c.advice.first;
  if (undone.length === 0 || first === undefined) return bench;
  const own = bench.effect(first);
  const cures = Float64Array.from(own.cures);
  for (const { question, answers } of undone)
    for (const [cause, answer, strength] of question.links)
      if (answers.includes(answer)) cures[cause] = Math.max(cures[cause]!, strength);
  const effect = { ...own, cures };
  const prospect = prospectOf(model, effect);
  return {
    ...bench,
    effect: (index) => (index === first ? effect : bench.effect(index)),
    prospect: (index) => (index === first ? prospect : bench.prospect(index)),
  };
}

/** `bars, stem, levers or grips`; undefined where the first step undoes no change that was named. */
export function undoneWords(model: Model, c: Consultation): string | undefined {
  const words = undoneFirst(model, c).flatMap(({ question, answers }) =>
    answers.map((i) => question.answers[i]!.text),
  );
  return words.length === 0 ? undefined : words.join('; ');
}
