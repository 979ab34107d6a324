/** The phrases of the rules, ready to be looked up in a rider's words. */
import MiniSearch from 'minisearch';
import type { Phrase } from '../rulebase/compiled.ts';
import { NO_SLIP } from './language.ts';
import { slipQuality } from './slips.ts';
import { slotsOf, type Slot } from './slots.ts';
import type { Token } from './tokens.ts';

/** One way of saying a phrase. */
export interface Saying {
  readonly phrase: Phrase;
  readonly text: string;
  readonly slots: readonly Slot[];
}

export interface PhraseIndex {
  /** the sayings that share at least one word with these tokens, slips included, in the order of the rules */
  find(tokens: readonly Token[]): Saying[];
  /** how well a token stands for a word of a slot, 0..1 */
  fits(token: Token, slot: Slot): number;
}

export function buildIndex(phrases: readonly Phrase[]): PhraseIndex {
  const sayings = phrases.flatMap((phrase) =>
    phrase.says
      .map((text): Saying => ({ phrase, text, slots: slotsOf(text) }))
      .filter((s) => s.slots.length > 0),
  );
  const vocabulary = new Set(sayings.flatMap((s) => s.slots.flatMap((slot) => [...slot.keys()])));
  const index = new MiniSearch<{ id: number; words: string }>({
    fields: ['words'],
    // Both sides come as stems with spaces between them: nothing is left for the library to cut or fold.
    tokenize: (text) => text.split(' '),
    processTerm: (term) => term,
  });
  index.addAll(
    sayings.map(({ slots }, id) => ({ id, words: slots.flatMap((s) => [...s.keys()]).join(' ') })),
  );
  // Two slips here and a stricter look in `fits`: a swap counts as two in the library.
  const fuzzy = (stem: string): number | false =>
    stem.length < 4 || vocabulary.has(stem) || NO_SLIP.has(stem) ? false : 2;
  return {
    find(tokens) {
      const stems = [...new Set(tokens.filter((t) => !t.filler).map((t) => t.stem))];
      if (stems.length === 0) return [];
      const found = index.search(stems.join(' '), { fuzzy, combineWith: 'OR' });
      return found
        .filter(({ id, terms }) => {
          const matched = new Set(terms);
          return sayings[id as number]!.slots.every((slot) =>
            [...slot.keys()].some((stem) => matched.has(stem)),
          );
        })
        .map(({ id }) => id as number)
        .sort((a, b) => a - b)
        .map((id) => sayings[id]!);
    },
    fits(token, slot) {
      if (token.filler) return 0;
      if (slot.has(token.stem)) return 1;
      if (vocabulary.has(token.stem)) return 0;
      let best = 0;
      for (const [stem, word] of slot) best = Math.max(best, slipQuality(token, { stem, word }));
      return best;
    },
  };
}
