/**
 * The ways of saying things in the rules, cut into the words that must be there: plain data, worked out once, because the
 * cutting takes longer than a case.
 */
import type { CompiledRules } from '../rulebase/compiled.ts';
import { endVocabulary } from './end-names.ts';
import { conceptSlotsOf, slotsOf, type Slot } from './slots.ts';

/** `stem/stem <concept>`: slots apart by spaces, in each the words of which one is enough. Empty: no word that counts. */
type Cut = string;

export interface CompiledWords {
  /** for each phrase, its ways of saying it */
  readonly says: readonly (readonly Cut[])[];
  /** for each concept, the ways of saying it */
  readonly concepts: readonly (readonly Cut[])[];
  /** pairs: stem, a word as the rules write it */
  readonly words: readonly string[];
  /** stems that stand for each other */
  readonly same: readonly (readonly string[])[];
}

export type WordRules = Pick<CompiledRules, 'words' | 'concepts' | 'endNames'>;

export function compileWords(rules: WordRules): CompiledWords {
  const ends = endVocabulary(rules.endNames);
  const says = rules.words.map((phrase) => phrase.says.map((text) => slotsOf(text, ends)));
  const concepts = rules.concepts.map((concept) => concept.words.map((text) => conceptSlotsOf(text, ends)));
  const words = new Map<string, string>();
  for (const slots of [...says.flat(), ...concepts.flat()])
    for (const slot of slots)
      for (const [stem, word] of slot) if (!isConcept(stem) && !stem.startsWith('~')) words.set(stem, word);
  return {
    says: says.map((all) => all.map(cutOf)),
    concepts: concepts.map((all) => all.map(cutOf)),
    words: [...words].flat(),
    same: rules.concepts
      .filter((c) => c.same)
      .map((c) => [
        ...new Set(c.words.flatMap((text) => slotsOf(text, ends).flatMap((slot) => [...slot.keys()]))),
      ]),
  };
}

function cutOf(slots: readonly Slot[]): Cut {
  return slots.map((slot) => [...slot.keys()].join('/')).join(' ');
}

/** The slots of such a text. */
export function slotsIn(cut: Cut): ReadonlySet<string>[] {
  return cut === '' ? [] : cut.split(' ').map((slot) => new Set(slot.split('/')));
}

export const isConcept = (key: string): boolean => key.startsWith('<');

/** Whether what was kept has the form it must have for these rules. */
export function isCompiledWords(kept: unknown, rules: WordRules): kept is CompiledWords {
  const { says, concepts, words, same } = (kept ?? {}) as Partial<CompiledWords>;
  const alike = (all: readonly unknown[] | undefined, of: readonly unknown[]): boolean =>
    Array.isArray(all) && all.length === of.length;
  return (
    alike(says, rules.words) && alike(concepts, rules.concepts) && Array.isArray(words) && Array.isArray(same)
  );
}
