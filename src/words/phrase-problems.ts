/** Phrases and concepts of the rules that no rider's words could ever match. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import { placeOf } from '../rulebase/lint.ts';
import type { Problem } from '../form/problem.ts';
import { conceptSlotsOf, slotsOf } from './slots.ts';

/** Ways of saying that hold no word to look up: all are so small that a sentence may have or lack them. */
export function phraseProblems(rules: Pick<CompiledRules, 'words' | 'concepts'>): Problem[] {
  const neverFound = (id: string, text: string, at: string): Problem => ({
    ...placeOf(at),
    code: 'never-found',
    severity: 'error',
    message: `${id}: "${text}" has no word that counts, so it is never found.`,
    remedy: 'Add a word that carries the meaning, or take it out.',
  });
  return [
    ...rules.words.flatMap(({ id, says, at }) =>
      says.filter((text) => slotsOf(text).length === 0).map((text) => neverFound(id, text, at)),
    ),
    ...rules.concepts.flatMap(({ id, words, at }) =>
      words.filter((text) => conceptSlotsOf(text).length === 0).map((text) => neverFound(id, text, at)),
    ),
  ];
}
