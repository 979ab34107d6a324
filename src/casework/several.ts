/** Several answers to one question as one answer with what stands beside it. */
import type { Question } from '../rulebase/compiled.ts';
import type { CaseAnswer } from './case.ts';

/** The first in the order of the rule, and the others; one answer alone where the question takes no more, the last given. */
export function together(
  { answers, default: none, list }: Question,
  given: readonly string[],
): Pick<CaseAnswer, 'answer' | 'also'> {
  const signs = answers.filter(({ id }, a) => a !== none && given.includes(id)).map(({ id }) => id);
  const last = given.at(-1)!;
  if (list !== true || signs.length < 2 || !signs.includes(last)) return { answer: last };
  const [answer, ...also] = signs;
  return { answer: answer!, also };
}

/** All that was answered. */
export function allOf({ answer, also = [] }: Pick<CaseAnswer, 'answer' | 'also'>): readonly string[] {
  return [answer, ...also];
}
