/**
 * The compiled words as one text. It is no JSON of lists, because making a hundred thousand numbers and words of that takes
 * longer than to find the few that a rider's words ask for: what belongs to a word is looked up there.
 */
import { withoutEnd } from '../rulebase/compiled.ts';
import type { Phrase } from '../rulebase/compiled-phrases.ts';
import {
  isConcept,
  type CompiledWords,
  type Cut,
  type Meaning,
  type Ways,
  type WordRules,
} from './compiled-words.ts';
import { endVocabulary } from './end-names.ts';
import { conceptSlotsOf, slotsOf, type Slot } from './slots.ts';

/** Before and after every entry of a part that is searched, and between its key and what belongs to it: in no word. */
const ENTRY = '\u001e';
const KEY = '\u001f';

interface Head {
  /** how many ways of saying all phrases before one have, and in the last place all phrases; the same of the concepts */
  readonly says: readonly number[];
  readonly concepts: readonly number[];
  /** of each way of saying a phrase how many slots it has, a letter each */
  readonly slots: string;
  readonly questions: number;
  readonly meanings: readonly Meaning[];
  readonly same: CompiledWords['same'];
}

/** A letter for no slot; one more of the alphabet for every slot, which are few, for each has a bit. */
const FIRST = 'A'.charCodeAt(0);

/** Lines before those of the phrases: the head, `fills`, `begins` and `words`. */
const BEFORE = 4;

const asksOf = ({ couldBe }: Phrase): string[] => [...new Set(couldBe.map((c) => withoutEnd(c.question)))];

export const compileWords = (rules: WordRules): CompiledWords => wordsOf(wordsToText(rules));

export function wordsToText(rules: WordRules): string {
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
  const head: Head = {
    says: startsOf(says),
    concepts: startsOf(concepts),
    slots: says.flatMap((ways) => ways.map((slots) => String.fromCharCode(FIRST + slots.length))).join(''),
    questions: new Set(rules.words.flatMap(asksOf)).size,
    meanings: rules.concepts.map(({ words: _, at: __, ...meaning }) => meaning),
    same: rules.concepts
      .filter((c) => c.same)
      .map((c) => [
        ...new Set(c.words.flatMap((text) => slotsOf(text, ends).flatMap((slot) => [...slot.keys()]))),
      ]),
  };
  return [
    JSON.stringify(head),
    entries(fills),
    entries(begins),
    entries(words),
    ...rules.words.map((phrase) => JSON.stringify(phrase)),
    ...rules.words.map((phrase) => asksOf(phrase).join(' ')),
    ...says.map((ways) => ways.map(cutOf).join(ENTRY)),
    ...concepts.map((ways) => ways.map(cutOf).join(ENTRY)),
  ].join('\n');
}

function listIn(lists: Map<string, number[]>, key: string): number[] {
  let list = lists.get(key);
  if (list === undefined) lists.set(key, (list = []));
  return list;
}

function cutOf(slots: readonly Slot[]): Cut {
  return slots.map((slot) => [...slot.keys()].join('/')).join(' ');
}

const entries = (all: ReadonlyMap<string, unknown>): string => {
  const sorted = [...all].sort(([a], [b]) => (a < b ? -1 : 1));
  return `${ENTRY}${sorted.map(([key, value]) => `${key}${KEY}${String(value)}${ENTRY}`).join('')}`;
};

/** @throws SyntaxError where it is no such text */
export function wordsOf(text: string): CompiledWords {
  const lines = text.split('\n');
  const head = JSON.parse(lines[0]!) as Head;
  const count = head.says.length - 1;
  if (lines.length !== BEFORE + 3 * count + head.meanings.length) throw new SyntaxError('lines are missing');
  const waysFrom = (line: number, starts: readonly number[]): Ways => ({
    starts,
    cut: (thing, place) => partOf(lines[line + thing]!, place),
  });
  const fills = numbersBy(lines[1]!);
  const begins = numbersBy(lines[2]!);
  const words = lines[3]!;
  return {
    phrases: {
      count,
      at: (phrase) => JSON.parse(lines[BEFORE + phrase]!) as Phrase,
      asks: (phrase) => {
        const asks = lines[BEFORE + count + phrase]!;
        return asks === '' ? [] : asks.split(' ');
      },
      questions: head.questions,
    },
    says: waysFrom(BEFORE + 2 * count, head.says),
    slotsOf: (way) => head.slots.charCodeAt(way) - FIRST,
    meanings: head.meanings,
    concepts: waysFrom(BEFORE + 3 * count, head.concepts),
    fills,
    begins,
    word: (stem) => valueOf(words, stem),
    stems: () =>
      words
        .split(ENTRY)
        .filter((entry) => entry !== '')
        .map((entry) => entry.slice(0, entry.indexOf(KEY))),
    same: head.same,
  };
}

function startsOf(lists: readonly (readonly unknown[])[]): number[] {
  const starts = [0];
  for (const list of lists) starts.push(starts.at(-1)! + list.length);
  return starts;
}

/** One of several that stand in a line: the rest of them is left as it is. */
function partOf(line: string, place: number): string {
  let from = 0;
  for (let i = 0; i < place; i++) from = line.indexOf(ENTRY, from) + 1;
  const to = line.indexOf(ENTRY, from);
  return to < 0 ? line.slice(from) : line.slice(from, to);
}

/** The entries stand in the order of their keys: halved, as a search through all of them takes twenty times as long. */
function valueOf(part: string, key: string): string | undefined {
  let low = 0;
  let high = part.length - 1;
  while (low < high) {
    const begin = part.lastIndexOf(ENTRY, (low + high) >> 1);
    const cut = part.indexOf(KEY, begin);
    const end = part.indexOf(ENTRY, cut);
    const found = part.slice(begin + 1, cut);
    if (found === key) return part.slice(cut + 1, end);
    if (found < key) low = end;
    else high = begin;
  }
  return undefined;
}

/** Numbers by their key, each list made once; riders say the same words again and again, and so few that all are kept. */
function numbersBy(part: string): (key: string) => readonly number[] {
  const known = new Map<string, readonly number[]>();
  return (key) => {
    let list = known.get(key);
    if (list === undefined) {
      const value = valueOf(part, key);
      if (value === undefined) return NONE;
      known.set(key, (list = value.split(',').map(Number)));
    }
    return list;
  };
}

const NONE: readonly number[] = [];
