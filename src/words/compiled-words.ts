/**
 * The ways of saying things in the rules, cut into the words that must be there, worked out once, because the cutting takes
 * longer than a case. A text that is read needs a few of them, so they are looked up one by one (`words-text.ts`).
 */
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { Concept, Phrase } from '../rulebase/compiled-phrases.ts';

/** `stem/stem <concept>`: slots apart by spaces, in each the words of which one is enough. Empty: no word that counts. */
export type Cut = string;

/** What a concept means, without its ways of saying it. */
export type Meaning = Omit<Concept, 'words' | 'at'>;

/** Ways of saying things, a list for each thing. */
export interface Ways {
  /** how many ways all things before one have, and in the last place all things together */
  readonly starts: readonly number[];
  cut(thing: number, place: number): Cut;
}

export interface CompiledWords {
  readonly phrases: {
    readonly count: number;
    at(phrase: number): Phrase;
    /** the questions, without their end, that it is about */
    asks(phrase: number): readonly string[];
    /** how many questions any of them is about */
    readonly questions: number;
  };
  readonly says: Ways;
  /** how many slots a way of saying a phrase has */
  slotsOf(way: number): number;
  readonly meanings: readonly Meaning[];
  readonly concepts: Ways;
  /** @returns of a stem or concept, pairs: a way of saying a phrase, counted through all of them, and the bit of the slot it fills */
  fills(key: string): readonly number[];
  /** @returns of a stem, the ways of saying a concept that begin with it, counted through all of them */
  begins(stem: string): readonly number[];
  /** @returns a word as the rules write it; undefined for a stem of none */
  word(stem: string): string | undefined;
  stems(): readonly string[];
  /** stems that stand for each other */
  readonly same: readonly (readonly string[])[];
}

export type WordRules = Pick<CompiledRules, 'words' | 'concepts' | 'endNames'>;

/** What is made of a way, once, by its number counted through all of them. */
export function madeOfEach<M>(
  ways: Ways,
  make: (cut: Cut, thing: number, place: number) => M,
): (id: number) => M {
  const made = new Map<number, M>();
  const makeOf = (id: number): M => {
    const thing = thingOf(ways, id);
    const place = id - ways.starts[thing]!;
    return make(ways.cut(thing, place), thing, place);
  };
  return (id) => {
    let one = made.get(id);
    if (one === undefined) made.set(id, (one = makeOf(id)));
    return one;
  };
}

/** What a way is a way of saying. */
export function thingOf({ starts }: Pick<Ways, 'starts'>, id: number): number {
  let low = 0;
  let high = starts.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= id) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The slots of such a text. */
export function slotsIn(cut: Cut): ReadonlySet<string>[] {
  return cut === '' ? [] : cut.split(' ').map((slot) => new Set(slot.split('/')));
}

export const isConcept = (key: string): boolean => key.startsWith('<');
