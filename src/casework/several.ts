/** Several answers to one question as one answer with what stands beside it. */
import { type Question, CANNOT_TELL, NOT_NOW } from '../rulebase/compiled.ts';
import type { CaseAnswer } from './case.ts';
import { printable } from '../form/text.ts';

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

/** What is wrong with a list, and the remedy. */
interface BadList {
  readonly message: string;
  readonly remedy: string;
}

/**
 * The answers of a list, each once and in the order of the rule, so that it cannot matter how they were written. A list of
 * one is as good as the plain answer, whatever the question; more than one only where it takes several, and each a sign.
 * What the question has no answer for comes back alone, for whoever tells of it.
 */
export function severalOf(
  list: readonly string[],
  { id, answers, default: none, list: takesSeveral }: Question,
): readonly string[] | BadList {
  const said = [...new Set(list)];
  if (said.length === 1) return said;
  if (takesSeveral !== true)
    return {
      message: `${id} takes one answer, found ${said.length}.`,
      remedy: 'Give the one that fits best.',
    };
  const signs = answers.filter((_, a) => a !== none).map((a) => a.id);
  const other = said.find((word) => !signs.includes(word));
  if (other === undefined) return signs.filter((sign) => said.includes(sign));
  const known = answers.some((a) => a.id === other) || other === CANNOT_TELL || other === NOT_NOW;
  return known
    ? {
        message: `${id}: ${printable(other)} cannot go with other answers.`,
        remedy: 'List only what was noticed.',
      }
    : [other];
}
