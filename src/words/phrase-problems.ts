/** Phrases and concepts of the rules that no rider's words could ever match. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import { placeOf } from '../rulebase/lint.ts';
import type { Problem } from '../form/problem.ts';
import { conceptSlotsOf, slotsOf } from './slots.ts';
import { NOT } from './tokens.ts';

/**
 * Ways of saying that hold no word to look up, since all are so small that a sentence may have or lack them; choices that the
 * hyphen cuts, or that a small word makes void.
 */
export function phraseProblems(rules: Pick<CompiledRules, 'words' | 'concepts'>): Problem[] {
  const neverFound = (id: string, text: string, at: string): Problem => ({
    ...placeOf(at),
    code: 'never-found',
    severity: 'error',
    message: `${id}: "${text}" has no word that counts, so it is never found.`,
    remedy: 'Add a word that carries the meaning, or take it out.',
  });
  const splitChoice = (id: string, text: string, at: string): Problem => ({
    ...placeOf(at),
    code: 'split-choice',
    severity: 'error',
    message: `${id}: "${text}" has a word with a hyphen in a choice, which is cut at the hyphen.`,
    remedy: 'Write it as a way of its own, without the choice.',
  });
  const lostChoice = (id: string, text: string, at: string): Problem => ({
    ...placeOf(at),
    code: 'lost-choice',
    severity: 'error',
    message: `${id}: "${text}" has a small word in a choice, which is then not asked for; one word is left.`,
    remedy: 'Take the small word out of the choice.',
  });
  const split = (text: string): boolean => text.split(' ').some((choice) => SPLIT_CHOICE.test(choice));
  return [
    ...rules.words.flatMap(({ id, says, at }) => says.filter(split).map((text) => splitChoice(id, text, at))),
    ...rules.concepts.flatMap(({ id, words, at }) =>
      words.filter(split).map((text) => splitChoice(id, text, at)),
    ),
    ...rules.words.flatMap(({ id, says, at }) => says.filter(isLost).map((text) => lostChoice(id, text, at))),
    ...rules.words.flatMap(({ id, says, at }) =>
      says.filter((text) => slotsOf(text).length === 0).map((text) => neverFound(id, text, at)),
    ),
    ...rules.concepts.flatMap(({ id, words, at }) =>
      words.filter((text) => conceptSlotsOf(text).length === 0).map((text) => neverFound(id, text, at)),
    ),
  ];
}

/** `step/step-down`, but not `<row>/<big-ones>`. */
const SPLIT_CHOICE = /^(?=.*\/)[^<>]*[^<>\s]-[^<>\s]/;

/** One word is left of "crashed yesterday/it", which a choice should have narrowed: it would be found in every "crashed". */
function isLost(text: string): boolean {
  return (
    slotsOf(text).filter((slot) => !slot.has(NOT)).length === 1 &&
    text.split(' ').some((choice) => choice.includes('/') && slotsOf(choice).length === 0)
  );
}
