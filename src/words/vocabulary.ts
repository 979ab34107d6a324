/** All words of the rules, and which of them a word of a rider may be meant as. */
import MiniSearch from 'minisearch';
import type { CompiledWords } from './compiled-words.ts';
import { COUNTS_IN_CONCEPT, MEANS_NOTHING, NO_SLIP, NOTHING } from './language.ts';
import { NOT, type Token } from './tokens.ts';
import { editDistance } from '../form/suggest.ts';

/**
 * How well a word that no phrase knows stands for one that a phrase has, both as written and as stems.
 * @returns 0 when it does not, else below 1
 */
function slipQuality(
  typed: { readonly word: string; readonly stem: string },
  known: { readonly word: string; readonly stem: string },
): number {
  if (NO_SLIP.has(typed.word) || typed.word[0] !== known.word[0]) return 0;
  if (Math.abs(typed.word.length - known.word.length) > 4) return 0;
  const slips = Math.min(
    slipsBetween(typed.stem, known.stem),
    ...INFLECTIONS.map((ending) => slipsBetween(typed.word, known.stem + ending)),
    slipsBetween(typed.word, known.word),
  );
  return slips === Infinity ? 0 : 1 - 0.15 * slips;
}

/** So that `kickng` finds `kick`: the stemmer cannot take off an ending that is misspelt. */
const INFLECTIONS = ['s', 'ed', 'ing', 'y'];

/**
 * Infinity when it is more than a slip: none below 4 letters, a swap at 4, a swap or a letter too many or missing from
 * 5, any one from 7, two from 9. One letter for another makes most short words a word of their own.
 */
function slipsBetween(typed: string, known: string): number {
  const length = Math.min(typed.length, known.length);
  const distance = editDistance(typed, known);
  if (distance === 0) return 0;
  if (length >= 9) return distance <= 2 ? distance : Infinity;
  if (distance !== 1 || length < 4) return Infinity;
  if (typed.length === known.length) return length >= 7 || sorted(typed) === sorted(known) ? 1 : Infinity;
  return length >= 5 ? 1 : Infinity;
}

const sorted = (word: string): string => [...word].sort().join('');

export interface Vocabulary {
  /** stems that a token stands for, with how well, 0..1: itself, or what it is a slip of */
  meant(token: Token): ReadonlyMap<string, number>;
}

export function buildVocabulary({
  word,
  stems,
  same,
}: Pick<CompiledWords, 'word' | 'stems' | 'same'>): Vocabulary {
  const alike = new Map<string, Set<string>>();
  for (const group of same)
    for (const stem of group) alike.set(stem, new Set([...(alike.get(stem) ?? []), ...group]));
  let looseWords: ((stem: string) => string[]) | undefined;
  const known = new Map<string, ReadonlyMap<string, number>>();
  const guess = (token: Token): ReadonlyMap<string, number> => {
    const out = new Map<string, number>();
    if (token.stem.length < 4 || NO_SLIP.has(token.stem) || /\d/.test(token.word)) return out;
    // Two slips here and a stricter look after: a swap counts as two in the library.
    looseWords ??= nearTo(stems());
    for (const stem of looseWords(token.stem)) {
      const quality = slipQuality(token, { stem, word: word(stem)! });
      if (quality > 0) out.set(stem, quality);
    }
    return out;
  };
  return {
    meant(token) {
      if (token.filler) {
        const small = COUNTS_IN_CONCEPT.get(token.word);
        return small === undefined ? NONE : new Map([[small, 1]]);
      }
      if (MEANS_NOTHING.has(token.word)) return NAUGHT;
      const before = known.get(keyOf(token));
      if (before !== undefined) return before;
      const found =
        word(token.stem) !== undefined
          ? new Map([
              ...[...(alike.get(token.stem) ?? [])].map((stem) => [stem, KIN] as const),
              [token.stem, 1],
            ])
          : guess(token);
      if (known.size < MOST_KNOWN) known.set(keyOf(token), found);
      return found;
    },
  };
}

/** The stems within two slips of one, best first; made only where a word is not in the rules as it stands. */
function nearTo(stems: readonly string[]): (stem: string) => string[] {
  const index = new MiniSearch<{ id: number; stem: string }>({
    fields: ['stem'],
    // Stems come whole: nothing is left for the library to cut or fold.
    tokenize: (text) => [text],
    processTerm: (term) => term,
  });
  index.addAll(stems.map((stem, id) => ({ id, stem })));
  return (stem) => index.search(stem, { fuzzy: 2 }).map(({ id }) => stems[id as number]!);
}

/** How well a word of the same meaning stands for the one written. */
export const KIN = 0.9;

/** A word alone would not do: the "back" of "the back" is an end, that of "comes back" is none. */
const keyOf = (token: Token): string => `${token.word} ${token.stem}`;

/** It is a negator like any other too. */
const NAUGHT: ReadonlyMap<string, number> = new Map([
  [NOTHING, 1],
  [NOT, 1],
]);
const NONE: ReadonlyMap<string, number> = new Map();
const MOST_KNOWN = 5_000;
