/** Several answers to one question, as a list in a case file. */
import { didYouMean } from '../form/suggest.ts';
import type { Question } from '../rulebase/compiled.ts';
import { shorten, show } from './value-label.ts';

/** What is wrong with a list, and the remedy. */
export interface BadList {
  readonly message: string;
  readonly remedy: string | (() => string);
}

/**
 * The answers of a list, each once and in the order of the rule, so that it cannot matter how they were written. A list of
 * one is as good as the plain answer, whatever the question; more than one only where it takes several, and each a sign.
 * @param ids every word that the question may be answered with
 */
export function readSeveral(
  list: readonly unknown[],
  { id, answers, default: none, list: takesSeveral }: Question,
  ids: () => readonly string[],
): readonly string[] | BadList {
  const words = [...new Set(list)];
  if (words.length === 0)
    return {
      message: `${id} lists no answer.`,
      remedy: 'Leave the question out, or write cannot-tell.',
    };
  const strange = words.find((word) => typeof word !== 'string' || !ids().includes(word));
  if (strange !== undefined) {
    return typeof strange === 'string'
      ? {
          message: `${id} has no answer ${shorten(strange)}.`,
          remedy: () => didYouMean(strange, ids()) || `Answers: ${ids().join(', ')}.`,
        }
      : { message: `Every answer to ${id} must be a word, found ${show(strange)}.`, remedy: '' };
  }
  const said = words as readonly string[];
  if (said.length === 1) return said;
  if (takesSeveral !== true)
    return {
      message: `${id} takes one answer, found ${said.length}.`,
      remedy: 'Give the one that fits best.',
    };
  const signs = answers.filter((_, a) => a !== none).map((a) => a.id);
  const alone = said.find((word) => !signs.includes(word));
  return alone === undefined
    ? signs.filter((sign) => said.includes(sign))
    : {
        message: `${id}: ${alone} cannot stand beside other answers.`,
        remedy: 'List only what was noticed.',
      };
}
