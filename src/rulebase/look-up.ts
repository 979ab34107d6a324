/** What one rule names and nothing defines, a rule or the bike sheet: told with the nearest that is defined. */
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

/**
 * @param facts every path of the sheet with the values it can have
 * @param wrong takes what does not fit, as the end of a sentence, and the remedy
 */
export function checkFact(
  facts: ReadonlyMap<string, readonly string[]>,
  path: string,
  values: readonly string[],
  wrong: (message: string, remedy: string) => void,
): void {
  const known = facts.get(path);
  if (known === undefined) {
    wrong(
      `asks the bike sheet for ${path}, which it does not have.`,
      didYouMean(path, facts.keys()) || `The sheet can say: ${[...facts.keys()].join(', ')}.`,
    );
    return;
  }
  for (const value of values)
    if (!known.includes(value))
      wrong(
        `asks for ${path}: ${value}, which the sheet never says.`,
        didYouMean(value, known) || `It says ${known.join(', ')}.`,
      );
}

const BIKE = 'bike.';

/** The path on the sheet that `bike.front.spring` asks for; undefined where a question is asked. */
export function factPath(asked: string): string | undefined {
  return asked.startsWith(BIKE) ? asked.slice(BIKE.length) : undefined;
}
