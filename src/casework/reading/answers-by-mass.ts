/** What the rider's mass answers by itself, once it was told for something else. */
import type { Question } from '../../rulebase/compiled.ts';
import type { CaseAnswer } from '../case.ts';

/** @param mass with kit, kg */
export function answersByMass(
  questions: readonly Pick<Question, 'id' | 'byMass'>[],
  mass: number,
): CaseAnswer[] {
  return questions.flatMap(({ id: question, byMass = {} }) =>
    Object.entries(byMass).flatMap(([answer, { below = 0, above = Infinity }]) =>
      mass < below || mass > above ? [{ question, answer, sure: 'sure' as const }] : [],
    ),
  );
}
