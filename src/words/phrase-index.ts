/** The phrases of the rules, ready to be looked up in a rider's words. */
import type { Phrase } from '../rulebase/compiled.ts';
import { compileWords, isConcept, slotsIn, type CompiledWords, type WordRules } from './compiled-words.ts';
import { endVocabulary, type EndVocabulary } from './end-names.ts';
import { buildLexicon, type Lexicon, type Scene } from './scene.ts';
import { buildVocabulary, type Vocabulary } from './vocabulary.ts';

/** One way of saying a phrase. */
export interface Saying {
  readonly phrase: Phrase;
  readonly text: string;
  readonly slots: readonly ReadonlySet<string>[];
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

/** @param compiled of these very rules */
export function buildIndex(rules: WordRules, compiled: CompiledWords = compileWords(rules)): PhraseIndex {
  const ends = endVocabulary(rules.endNames);
  const cuts: { readonly phrase: Phrase; readonly text: string; readonly cut: string }[] = [];
  compiled.says.forEach((ways, p) => {
    const phrase = rules.words[p]!;
    ways.forEach((cut, i) => {
      if (cut !== '') cuts.push({ phrase, text: phrase.says[i]!, cut });
    });
  });
  // Every word points at the slots it fills; a saying is found when all its slots are.
  const postings = new Map<string, number[]>();
  const all = new Uint32Array(cuts.length);
  cuts.forEach(({ cut }, id) => {
    const slots = cut.split(' ');
    all[id] = 2 ** slots.length - 1;
    slots.forEach((slot, s) => {
      for (const key of slot.split('/')) {
        const list = postings.get(key);
        if (list === undefined) postings.set(key, [id, 1 << s]);
        else list.push(id, 1 << s);
      }
    });
  });
  const sayings = new Map<number, Saying>();
  const sayingOf = (id: number): Saying => {
    let saying = sayings.get(id);
    if (saying === undefined) {
      const { phrase, text, cut } = cuts[id]!;
      const slots = slotsIn(cut);
      saying = { phrase, text, slots, wide: slots.some((slot) => [...slot].some(isConcept)) };
      sayings.set(id, saying);
    }
    return saying;
  };
  const filled = new Uint32Array(cuts.length);
  return {
    ends,
    lexicon: buildLexicon(rules.concepts, compiled.concepts),
    vocabulary: buildVocabulary(compiled),
    find({ hits }) {
      filled.fill(0);
      const ids: number[] = [];
      for (const key of hits.keys()) {
        const list = postings.get(key) ?? [];
        for (let i = 0; i < list.length; i += 2) {
          const id = list[i]!;
          const bit = list[i + 1]!;
          if ((filled[id]! & bit) !== 0) continue;
          filled[id]! |= bit;
          if (filled[id] === all[id]) ids.push(id);
        }
      }
      return ids.sort((a, b) => a - b).map(sayingOf);
    },
  };
}
