/** Why a question is asked: what each answer would do to the leading explanations. */
import type { Bench } from '../advice/bench.ts';
import { update } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import { look, type Interview } from './session.ts';

export interface Why {
  readonly answer: string;
  readonly text: string;
  /** the cause that would lead, and how likely it would be then; null when nothing off would lead */
  readonly leads: { readonly id: string; readonly name: string; readonly probability: number } | null;
  /** how likely it is that nothing is off, then */
  readonly nothing: number;
}

/** For every answer of a question: what would lead after it. */
export function why(model: Model, bench: Bench, state: Interview, question: string): Why[] {
  const index = model.questionIndex.get(question)!;
  const { heard, belief } = look(model, bench, state);
  // The answers so far sit in the prior of the sets; only the new answer's own effect is wanted, with its topic.
  const evidence = heard.evidence.filter((e) => e.question !== index);
  const prior = state.results.length + state.earlier.length > 0 ? belief.weights : bench.prior;
  const told = prior === bench.prior ? evidence : [];
  return model.rules.questions[index]!.answers.map(({ id, text }, answer) => {
    const after = update(model, prior, [...told, { question: index, answer, sure: 1 }]);
    let top = 0;
    for (let c = 1; c < after.causes.length; c++) if (after.causes[c]! > after.causes[top]!) top = c;
    const cause = model.rules.causes[top]!;
    const leads =
      after.nothing >= after.causes[top]!
        ? null
        : { id: cause.id, name: cause.name, probability: after.causes[top]! };
    return { answer: id, text, leads, nothing: after.nothing };
  });
}
