/** Free text → words with their places, stems, and the statements they stand in. */
import stemOf from 'wink-porter2-stemmer';
import type { End } from '../bike/sheet.ts';
import { PLAIN_ENDS, type EndVocabulary } from './end-names.ts';
import { CONTRAST, FILLERS, isNegator, NEW_PART, NEW_STATEMENT, OWN_WORD } from './language.ts';

export interface Token {
  /** lower case, straight apostrophes */
  readonly word: string;
  /** what it is looked up by: the stem; `front`, `rear` or `not` for every word that means just that */
  readonly stem: string;
  readonly filler: boolean;
  /** the end of the bike that it names */
  readonly end?: End;
  /** the end it tells where none is named */
  readonly hint?: End;
  /** place in the text, UTF-16 units */
  readonly start: number;
  readonly stop: number;
  /** counts up where a denial or the end spoken of may change */
  readonly part: number;
}

/** A run of words that no comma, full stop or `but` interrupts. */
export interface Statement {
  readonly tokens: readonly Token[];
  /** counts the sentences of the text */
  readonly sentence: number;
  /** begins with a word such as `but` */
  readonly contrast: boolean;
  /** ends with a question mark */
  readonly asked: boolean;
}

export const NOT = 'not';
/** No word of the trade is longer; a paste or a key held down is not looked up. */
const LONGEST_WORD = 30;
/** Speech typed without any commas is cut here, so that the time to read it only grows with its length. */
const LONGEST_STATEMENT = 60;

/** A unit that is written onto its number is a word of its own: "62kg", "40mm". */
const PIECE =
  /(?<word>[0-9]+(?:[.][0-9]+)?(?=(?:kgs?|kilos?|stone|lbs?|psi|bar|mm|cm|mins?|km|mph|clicks?)(?![\p{L}\p{N}]))|[\p{L}\p{N}]+(?:[.][\p{N}]+)?(?:['’][\p{L}]+)*|%)|(?<full>[.!?;\n\r]+)|(?<comma>[,:()"“”[\]]| [-–—]+ |[–—])/gu;

interface Piece {
  readonly word: string;
  readonly start: number;
  readonly stop: number;
}

/** Cuts a text into statements; the words between them that only join them belong to none. */
export function statementsOf(text: string, ends: EndVocabulary = PLAIN_ENDS): Statement[] {
  const out: Statement[] = [];
  let pieces: Piece[] = [];
  let sentence = 0;
  let contrast = false;
  const close = (asked = false): void => {
    if (pieces.length > 0) {
      out.push({ tokens: tokensOf(pieces, ends), sentence, contrast, asked });
      contrast = false;
    }
    pieces = [];
  };
  for (const found of text.matchAll(PIECE)) {
    const { word, full } = found.groups!;
    if (word === undefined) {
      close(full?.includes('?'));
      if (full !== undefined) {
        sentence++;
        contrast = false;
      }
      continue;
    }
    const plain = word === '%' ? 'percent' : word.toLowerCase().replaceAll('’', "'");
    if (NEW_STATEMENT.has(plain)) {
      close();
      contrast = CONTRAST.has(plain);
      continue;
    }
    pieces.push({ word: plain, start: found.index, stop: found.index + word.length });
    if (pieces.length >= LONGEST_STATEMENT) close();
  }
  close();
  return out;
}

/** The words of one phrase of the rules, read exactly as a rider's words are. */
export function wordsOf(phrase: string, ends: EndVocabulary = PLAIN_ENDS): Token[] {
  return statementsOf(phrase, ends).flatMap((s) => [...s.tokens]);
}

function tokensOf(pieces: readonly Piece[], ends: EndVocabulary): Token[] {
  let part = 0;
  const endBefore = (i: number): boolean => {
    const before = pieces[i - 1]?.word;
    return before === 'back' || (before !== undefined && ends.named(before)?.as === 'name');
  };
  // "The fork's low" speaks of the fork.
  const ownerIn = (word: string): ReturnType<EndVocabulary['named']> => {
    const owner = word.endsWith("'s") ? ends.named(word.slice(0, -2), 'the') : undefined;
    return owner?.as === 'name' ? owner : undefined;
  };
  return pieces.map(({ word, start, stop }, i) => {
    const before = pieces[i - 1]?.word;
    const after = pieces[i + 1]?.word;
    if (NEW_PART.has(word) && !joinsEnds(pieces, i, ends)) part++;
    const beside = standIn(pieces, i);
    const named = beside === NO_END ? undefined : (ends.named(word, before, after) ?? ownerIn(word));
    return {
      word,
      // A nose or a tail names an end too, but "nose low" is not "the front is low".
      stem: named?.as === 'name' ? named.end : (beside ?? lookUp(word)),
      ...(named === undefined ? {} : named.as === 'hint' ? { hint: named.end } : { end: named.end }),
      // The "end" of "rear end" is no end of the travel.
      filler: FILLERS.has(word) || word.length > LONGEST_WORD || (ENDS.has(word) && endBefore(i)),
      start,
      stop,
      part,
    };
  });
}

/** `front and rear` speaks of both at once and begins nothing new. */
function joinsEnds(pieces: readonly Piece[], i: number, ends: EndVocabulary): boolean {
  const before = pieces[i - 1]?.word ?? '';
  const next = pieces[i + 1]?.word ?? '';
  const after = next === 'the' ? (pieces[i + 2]?.word ?? '') : next;
  const mayBeEnd = (word: string): boolean => word === 'back' || (ends.named(word)?.as ?? 'hint') !== 'hint';
  return mayBeEnd(before) && mayBeEnd(after);
}

const ENDS = new Set(['end', 'ends']);

/** What a word is looked up by that means another thing here than it does in the phrases. */
function standIn(pieces: readonly Piece[], i: number): string | undefined {
  if (noEnd(pieces, i)) return NO_END;
  if (isSeason(pieces, i)) return SEASON;
  if (pieces[i]!.word === 'one' && STANDS_FOR.has(pieces[i - 1]?.word ?? '')) return SOME_THING;
  if (pieces[i]!.word === 'right' && NOT_CORRECT.has(pieces[i + 1]?.word ?? '')) return RIGHT_THERE;
  if (pieces[i]!.word === 'change' && pieces[i - 1]?.word === 'no') return NO_CHANGE;
  return pieces[i]!.word === 'well' && pieces[i - 1]?.word === 'as' && pieces[i + 1]?.word !== 'as'
    ? ALSO
    : undefined;
}

const NO_END = 'place-beside';
const SEASON = 'season';
/** "Harsh right at the start" and "the right leg": nothing is as it should be. */
const RIGHT_THERE = 'right-there';
const NOT_CORRECT = new Set(
  'at in on up down into off out over round where leg hand foot side arm wrist thumb palm knee shoulder pedal crank turn corner hander'.split(
    ' ',
  ),
);
/** "The rear kicks as well" praises nothing. */
const ALSO = 'also';
/** "Tried softer grips, no change": what came of it, and not that nothing was changed. */
const NO_CHANGE = 'change-that-came';
/** "The new one doesn't": a thing that was named, and no single hit. */
const SOME_THING = 'one-of-them';
const STANDS_FOR = new Set('new old other this that my his her their which'.split(' '));

/** "In front of the wheel" and "throws me off the back" name no end of the bike. */
function noEnd(pieces: readonly Piece[], i: number): boolean {
  const at = (step: number): string => pieces[i + step]?.word ?? '';
  if (at(0) === 'front') return at(-1) === 'in' && at(1) === 'of';
  if (at(0) !== 'back' || at(-1) !== 'the' || at(1) === 'of' || at(1) === 'wheel') return false;
  return (at(-2) === 'off' || at(-2) === 'over') && OFF_THE_BACK.has(at(-3));
}

/** Who, or what somebody does, off or over the back of the bike. */
const OFF_THE_BACK = new Set(
  ['me', 'him', 'her', 'us', 'you'].concat(['ride', 'riding', 'hang', 'hanging', 'weight', 'sit', 'sat']),
);

/** "Since spring", "lost weight this spring" speak of no spring of the bike; "this spring is soft", "the next spring up" do. */
function isSeason(pieces: readonly Piece[], i: number): boolean {
  const at = (step: number): string => pieces[i + step]?.word ?? '';
  if (at(0) !== 'spring') return false;
  if (IN_A_SEASON.has(at(-1))) return true;
  return THIS_TIME.has(at(-1)) && !OF_A_THING.has(at(-2)) && (at(1) === '' || GOES_ON_WITH.has(at(1)));
}

const IN_A_SEASON = new Set(['since', 'until', 'early', 'late', 'in']);
const THIS_TIME = new Set(['this', 'last', 'next']);
/** Before it: a part of the bike is meant. */
const OF_A_THING = new Set('the a my with on for to than of from have need fit fitted try tried'.split(' '));
/** After it: what was done at that time. */
const GOES_ON_WITH = new Set([...'i we he she they it my the at after before'.split(' '), ...NEW_PART]);

const lookUp = (word: string): string => (isNegator(word) ? NOT : stemmed(word));

/** The stemmer knows English only; anything else stays as it is. */
function stemmed(word: string): string {
  if (word.length > LONGEST_WORD || !/^[a-z']+$/.test(word)) return word;
  const known = OWN_WORD.get(word) ?? STEMS.get(word);
  if (known !== undefined) return known;
  const stem = stemOf(word) || word;
  if (STEMS.size < MOST_STEMS) STEMS.set(word, stem);
  return stem;
}

/** Stems already worked out: stemming is most of the time it takes to read the phrases. */
const STEMS = new Map<string, string>();
const MOST_STEMS = 5_000;
