/** A way of saying a phrase, as the rules write it, cut into the words that must be there. */
import { PLAIN_ENDS, type EndVocabulary } from './end-names.ts';
import { COUNTS_IN_CONCEPT, MEANS_NOTHING, NOTHING } from './language.ts';
import { wordsOf, type Token } from './tokens.ts';

/**
 * One word of a phrase, or several of which one is enough (`bump/hit/root`): stem → the word as written.
 * A concept stands as `<id>`, a number as `<number>`.
 */
export type Slot = ReadonlyMap<string, string>;

/** The concept that every pack has: any number in figures. */
export const NUMBER = '<number>';

/** The words of a phrase that count; `a/b` makes one slot of both, and `on/over` none, since `on` may be left out. */
export function slotsOf(text: string, ends: EndVocabulary = PLAIN_ENDS): Slot[] {
  const slots: Slot[] = [];
  const concepts: string[] = [];
  // A concept is cut as one word, under a name that no word of a rider has.
  const plain = text.replaceAll(/<[^<>]*>/g, (whole) => `${MARK}${concepts.push(whole) - 1}`);
  let group: Token[] = [];
  for (const token of wordsOf(plain, ends)) {
    group.push(token);
    if (plain[token.stop] === '/') continue;
    if (!group.some((t) => t.filler)) slots.push(new Map(group.map((t) => keyOf(t, concepts))));
    group = [];
  }
  return slots;
}

/** The words of one way of saying a concept: here the small words that tell a place or a way count too. */
export function conceptSlotsOf(text: string, ends: EndVocabulary = PLAIN_ENDS): Slot[] {
  const slots: Slot[] = [];
  let group: (readonly [string, string])[] = [];
  for (const { stem, word, filler, stop } of wordsOf(text, ends)) {
    const small = COUNTS_IN_CONCEPT.get(word);
    if (small !== undefined && filler) group.push([small, word]);
    else if (!filler) group.push([MEANS_NOTHING.has(word) ? NOTHING : stem, word]);
    if (text[stop] === '/') continue;
    if (group.length > 0) slots.push(new Map(group));
    group = [];
  }
  return slots;
}

const MARK = 'xxconceptxx';

function keyOf({ stem, word }: Token, concepts: readonly string[]): [string, string] {
  if (MEANS_NOTHING.has(word)) return [NOTHING, word];
  const concept = word.startsWith(MARK) ? concepts[Number(word.slice(MARK.length))] : undefined;
  return concept === undefined ? [stem, word] : [concept, concept];
}
