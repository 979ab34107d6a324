/** What one rule names and no other defines: told with the nearest that is defined. */
import type { Report } from './entries.ts';
import type { Place, ProblemCode } from '../form/problem.ts';
import { didYouMean } from '../form/suggest.ts';

export function reportUnknown(
  report: Report,
  place: Place,
  what: 'setting' | 'concept' | 'cause' | 'question' | 'adjustment' | 'caution',
  id: string,
  known: Iterable<string>,
): void {
  report(
    place,
    'unknown-id',
    `No ${what} ${id}.`,
    didYouMean(id, known) ||
      (what === 'concept'
        ? 'Say its words under concepts:, or name one that is there.'
        : `"earshot rules show ${what}s" lists those there are.`),
  );
}

/** @param answers ids of the answers that the question has */
export function reportNoAnswer(
  report: Report,
  place: Place,
  { question, answer, answers }: { question: string; answer: string; answers: readonly string[] },
  code: ProblemCode = 'unknown-id',
): void {
  report(
    place,
    code,
    `${question} has no answer ${answer}.`,
    didYouMean(answer, answers) || `Answers: ${answers.join(', ')}.`,
  );
}
