/** The answers of an interview: made, taken back, given without an end, left open. */
import type { Measured, Sure } from '../casework/case.ts';
import { together } from '../casework/several.ts';
import type { Model } from '../diagnosis/model.ts';
import { atEither, CANNOT_TELL, NOT_NOW, type Question } from '../rulebase/compiled.ts';
import { answeredWithoutEnd, answersGiven, type Interview, type Step } from './state.ts';

/** Questions that were asked and not answered; one that was answered without its end is. */
export function leftOpen(steps: readonly Step[]): string[] {
  return answersGiven(steps)
    .filter((s) => s.answer === CANNOT_TELL || s.answer === NOT_NOW)
    .map((s) => s.question);
}

/** Steps taken back one by one; an answer without its end goes with the two ends it left open. */
export function back(steps: readonly Step[], count: number): readonly Step[] {
  const left = [...steps];
  for (let i = 0; i < count && left.length > 0; i++) {
    while (answeredWithoutEnd(left, left.at(-1)!)) left.pop();
    left.pop();
  }
  return left;
}

/** Whether the question that is asked can be answered without its end. */
export function canBeEither(model: Model, question: string): boolean {
  return atEither(question) !== question && model.questionIndex.has(atEither(question));
}

/** An answer as it is kept, with the number where it was made of one. */
export function stepOf(
  model: Model,
  question: string,
  answers: readonly string[],
  { sure, measured }: { readonly sure: Sure; readonly measured: Measured | undefined },
): Step {
  return {
    question,
    ...together(questionOf(model, question), answers),
    sure,
    ...(measured === undefined ? {} : { measured }),
  };
}

/** The answer at an end unknown, and "can't tell" at the ends that were not answered before. */
export function withoutEnd(model: Model, { steps }: Interview, step: Step): readonly Step[] {
  const id = atEither(step.question);
  const { questions } = model.rules;
  const ends = questions[model.questionIndex.get(id)!]!.either!.map((i) => questions[i]!.id);
  const open = ends.filter((end) => !steps.some((s) => s.question === end));
  return [
    ...steps.filter((s) => s.question !== id),
    { ...step, question: id },
    ...open.map((question) => ({ question, answer: CANNOT_TELL, sure: 'sure' as const })),
  ];
}

function questionOf(model: Model, id: string): Question {
  return model.rules.questions[model.questionIndex.get(id)!]!;
}

export function isAnswer(model: Model, question: string, answer: string): boolean {
  const index = model.questionIndex.get(question);
  return (
    index !== undefined &&
    (answer === CANNOT_TELL || model.rules.questions[index]!.answers.some((a) => a.id === answer))
  );
}
