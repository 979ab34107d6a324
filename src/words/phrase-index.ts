/** The phrases of the rules, ready to be looked up in a rider's words. */
import type { EndNames, Phrase } from '../rulebase/compiled-phrases.ts';
import { isConcept, madeOfEach, slotsIn, type CompiledWords } from './compiled-words.ts';
import { endVocabulary, type EndVocabulary } from './end-names.ts';
import { COUNTS_IN_CONCEPT } from './language.ts';
import { buildLexicon, type Lexicon, type Scene } from './scene.ts';
import { buildVocabulary, type Vocabulary } from './vocabulary.ts';

/** One way of saying a phrase. */
export interface Saying {
  readonly phrase: Phrase;
  readonly text: string;
  readonly slots: readonly ReadonlySet<string>[];
  /** holds a concept: its words may stand anywhere in the statement */
  readonly wide: boolean;
  /** the small words in it that tell a place or a way */
  readonly joins: readonly string[];
}

export interface PhraseIndex {
  readonly ends: EndVocabulary;
  readonly lexicon: Lexicon;
  readonly vocabulary: Vocabulary;
  /** the sayings of which every word or concept stands in the scene, in the order of the rules */
  find(scene: Scene): Saying[];
}

/** @param words of the rules whose ends have these names */
export function buildIndex(names: readonly EndNames[], words: CompiledWords): PhraseIndex {
  const ends = endVocabulary(names);
  const { says, phrases } = words;
  const sayingOf = madeOfEach(says, (cut, of, place): Saying => {
    const phrase = phrases.at(of);
    const text = phrase.says[place]!;
    const slots = slotsIn(cut);
    return {
      phrase,
      text,
      slots,
      wide: slots.some((slot) => [...slot].some(isConcept)),
      joins: joinsIn(text),
    };
  });
  return {
    ends,
    lexicon: buildLexicon(words),
    vocabulary: buildVocabulary(words),
    find({ hits }) {
      // Every word points at the slots it fills; a saying is found when all its slots are.
      const filled = new Map<number, number>();
      for (const key of hits.keys()) {
        const list = words.fills(key);
        for (let i = 0; i < list.length; i += 2)
          filled.set(list[i]!, (filled.get(list[i]!) ?? 0) | list[i + 1]!);
      }
      const ids: number[] = [];
      for (const [id, bits] of filled) if (bits === 2 ** words.slotsOf(id) - 1) ids.push(id);
      return ids.sort((a, b) => a - b).map(sayingOf);
    },
  };
}

function joinsIn(says: string): string[] {
  const small = says.split(' ').map((word) => COUNTS_IN_CONCEPT.get(word.toLowerCase()));
  return [...new Set(small.filter((s) => s !== undefined && JOINING.has(s)))] as string[];
}

const JOINING = new Set(
  ['in', 'into', 'of', 'on', 'to', 'from', 'through', 'at', 'than', 'with', 'for', 'by'].map((w) => `~${w}`),
);
