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
  /** stem or concept → pairs: a way of saying a phrase, counted through all of them, and the bit of the slot it fills */
  readonly fills: Readonly<Record<string, readonly number[]>>;
  /** stem → the ways of saying a concept that begin with it, counted through all of them */
  readonly begins: Readonly<Record<string, readonly number[]>>;
  /** stem → a word as the rules write it */
  readonly words: Readonly<Record<string, string>>;
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
  const fills = new Map<string, number[]>();
  for (const [id, slots] of says.flat().entries())
    for (const [s, slot] of slots.entries())
      for (const key of slot.keys()) listIn(fills, key).push(id, 1 << s);
  const begins = new Map<string, number[]>();
  for (const [id, slots] of concepts.flat().entries())
    for (const key of slots[0]?.keys() ?? []) listIn(begins, key).push(id);
  return {
    says: says.map((all) => all.map(cutOf)),
    concepts: concepts.map((all) => all.map(cutOf)),
    fills: Object.fromEntries(fills),
    begins: Object.fromEntries(begins),
    words: Object.fromEntries(words),
    same: rules.concepts
      .filter((c) => c.same)
      .map((c) => [
        ...new Set(c.words.flatMap((text) => slotsOf(text, ends).flatMap((slot) => [...slot.keys()]))),
      ]),
  };
}

function listIn(lists: Map<string, number[]>, key: string): number[] {
  let list = lists.get(key);
  if (list === undefined) lists.set(key, (list = []));
  return list;
}

/** What is made of an item, once, by the item's number counted through all lists. */
export function madeOfEach<T, M>(
  lists: readonly (readonly T[])[],
  make: (item: T, list: number, place: number) => M,
): (id: number) => M {
  const made = new Map<number, M>();
  const starts = new Uint32Array(lists.length + 1);
  for (let i = 0; i < lists.length; i++) starts[i + 1] = starts[i]! + lists[i]!.length;
  const makeOf = (id: number): M => {
    let low = 0;
    let high = lists.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= id) low = middle;
      else high = middle - 1;
    }
    const place = id - starts[low]!;
    return make(lists[low]![place]!, low, place);
  };
  return (id) => {
    let one = made.get(id);
    if (one === undefined) made.set(id, (one = makeOf(id)));
    return one;
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
  const { says, concepts, fills, begins, words, same } = (kept ?? {}) as Partial<CompiledWords>;
  const isObject = (value: unknown): boolean => typeof value === 'object' && value !== null;
  const alike = (all: readonly unknown[] | undefined, of: readonly unknown[]): boolean =>
    Array.isArray(all) && all.length === of.length;
  return (
    alike(says, rules.words) &&
    alike(concepts, rules.concepts) &&
    [fills, begins, words].every(isObject) &&
    Array.isArray(same)
  );
}
