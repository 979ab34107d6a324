/** The phrases of the rules, ready to be looked up in a rider's words. */
import type { CompiledRules, Phrase } from '../rulebase/compiled.ts';
import { endVocabulary, type EndVocabulary } from './end-names.ts';
import { buildLexicon, type Lexicon, type Scene } from './scene.ts';
import { conceptSlotsOf, slotsOf, type Slot } from './slots.ts';
import { buildVocabulary, type Vocabulary } from './vocabulary.ts';

/** One way of saying a phrase. */
export interface Saying {
  readonly phrase: Phrase;
  readonly text: string;
  readonly slots: readonly Slot[];
  /** holds a concept: its words may stand anywhere in the statement */
  readonly wide: boolean;
}

export interface PhraseIndex {
  readonly ends: EndVocabulary;
  readonly lexicon: Lexicon;
  readonly vocabulary: Vocabulary;
  /** the sayings of which every word or concept stands in the scene, in the order of the rules */
  find(scene: Scene): Saying[];
}

export function buildIndex(rules: Pick<CompiledRules, 'words' | 'concepts' | 'endNames'>): PhraseIndex {
  const ends = endVocabulary(rules.endNames);
  const sayings = rules.words.flatMap((phrase) =>
    phrase.says
      .map((text): Saying => {
        const slots = slotsOf(text, ends);
        return { phrase, text, slots, wide: slots.some((slot) => [...slot.keys()].some(isConcept)) };
      })
      .filter((s) => s.slots.length > 0),
  );
  const words = new Map<string, string>();
  const learn = (slots: readonly Slot[]): void => {
    for (const slot of slots)
      for (const [stem, word] of slot) if (!isConcept(stem) && !stem.startsWith('~')) words.set(stem, word);
  };
  for (const { slots } of sayings) learn(slots);
  for (const concept of rules.concepts) for (const text of concept.words) learn(conceptSlotsOf(text, ends));
  const same = rules.concepts
    .filter((c) => c.same)
    .map((c) => new Set(c.words.flatMap((text) => slotsOf(text, ends).flatMap((slot) => [...slot.keys()]))));
  // Every word points at the slots it fills; a saying is found when all its slots are.
  const postings = new Map<string, { readonly id: number; readonly bit: number }[]>();
  sayings.forEach(({ slots }, id) => {
    slots.forEach((slot, s) => {
      for (const key of slot.keys()) {
        const list = postings.get(key);
        if (list === undefined) postings.set(key, [{ id, bit: 1 << s }]);
        else list.push({ id, bit: 1 << s });
      }
    });
  });
  const filled = new Uint32Array(sayings.length);
  return {
    ends,
    lexicon: buildLexicon(rules.concepts, ends),
    vocabulary: buildVocabulary(words, same),
    find({ hits }) {
      filled.fill(0);
      const ids: number[] = [];
      for (const key of hits.keys()) {
        for (const { id, bit } of postings.get(key) ?? []) {
          if ((filled[id]! & bit) !== 0) continue;
          filled[id]! |= bit;
          if (filled[id] === 2 ** sayings[id]!.slots.length - 1) ids.push(id);
        }
      }
      return ids.sort((a, b) => a - b).map((id) => sayings[id]!);
    },
  };
}

const isConcept = (key: string): boolean => key.startsWith('<');
