/** What one rule names and nothing defines, a rule or the bike sheet: told with the nearest that is defined. */
import type { Place, Problem, ProblemCode } from '../form/problem.ts';
import { didYouMean } from '../form/suggest.ts';

/** Reports a problem at a place of a rule file. */
export type Report = (place: Place, code: ProblemCode, message: string, remedy: string) => void;

export function reporter(into: Problem[]): Report {
  return (place, code, message, remedy) => into.push({ ...place, code, severity: 'error', message, remedy });
}

/** What a rule can name. */
export type Named = 'setting' | 'concept' | 'cause' | 'question' | 'adjustment' | 'caution';
/** Ids that are defined. */
export interface Ids {
  has(id: string): boolean;
  keys(): Iterable<string>;
}

export function reportUnknown(report: Report, place: Place, what: Named, id: string, known: Ids): void {
  const remedy =
    what === 'concept'
      ? 'Say its words under concepts:, or name one that is there.'
      : `"earshot rules show ${what}s" lists those there are.`;
  report(place, 'unknown-id', `No ${what} ${id}.`, didYouMean(id, known.keys()) || remedy);
}

/** An answer that a question does not have, and those that it has, by id. */
export interface NoAnswer {
  readonly question: string;
  readonly answer: string;
  readonly answers: readonly string[];
}

export function reportNoAnswer(
  report: Report,
  place: Place,
  { question, answer, answers }: NoAnswer,
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
