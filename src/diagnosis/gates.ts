/** Which questions may be asked, and which answers belong to a question that does not apply. */
import { atEither, type Question } from '../rulebase/compiled.ts';

/** What is known when a gate is looked at. */
export interface Known {
  /** question id → answer id; a question answered "can't tell" is absent */
  readonly answers: ReadonlyMap<string, string>;
  /** what the bike sheet says of a path such as front.spring; undefined when nothing is written down */
  readonly bike: (path: string) => string | undefined;
}

/**
 * May the question be asked now? A gate on a question waits for one of its answers, or for one whose end is not known; one
 * on the bike only for no contradiction.
 */
export function isOpen(question: Question, known: Known): boolean {
  return question.gates.every(({ on, id, values }) => {
    const value = on === 'bike' ? known.bike(id) : (known.answers.get(id) ?? known.answers.get(atEither(id)));
    return value === undefined ? on === 'bike' : values.includes(value);
  });
}

/** The gate that an answer already given contradicts, if any: the question did not apply. */
export function contradiction(question: Question, known: Known): { id: string; value: string } | undefined {
  for (const { on, id, values } of question.gates) {
    const value = on === 'bike' ? known.bike(id) : known.answers.get(id);
    if (value !== undefined && !values.includes(value)) return { id, value };
  }
  return undefined;
}
