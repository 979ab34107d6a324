/** A choice picked by typing its words. Pure. */
import { isNegator } from '../words/language.ts';

/** Words before the one that a name is known by. */
const LEADS: ReadonlySet<string> = new Set(['the', 'at', 'a', 'an', 'it', 'is', 'in', 'on']);

/** As they are written, in small letters. */
const writtenIn = (text: string): string[] =>
  text
    .toLowerCase()
    .replaceAll('’', "'")
    .match(/[\p{L}\p{N}]+(?:'[\p{L}]+)*/gu) ?? [];

/** Without apostrophes, doubled letters as one: a keyboard guard takes the second of two equal keys for a held one. */
const folded = (word: string): string => word.replaceAll("'", '').replaceAll(/(.)\1+/gu, '$1');

const wordsOf = (text: string): string[] => writtenIn(text).map(folded);

/** Words that turn what is said into its opposite; of a doubled letter in them one may be missing. */
const denialsIn = (text: string): string[] =>
  writtenIn(text)
    .filter(
      (word) => isNegator(word) || [...word].some((_, i) => isNegator(word.slice(0, i + 1) + word.slice(i))),
    )
    .map(folded);

/** Whether a letter may be the first of the words that a choice is known by. */
export function mayBegin(letter: string, names: readonly string[]): boolean {
  const first = letter.toLowerCase();
  return names.some((name) => {
    const words = wordsOf(name);
    return (words.find((word) => !LEADS.has(word)) ?? words[0])?.startsWith(first) === true;
  });
}

/** Whether any word of a choice begins with a letter. */
export function isInAny(letter: string, names: readonly string[]): boolean {
  return names.some((name) => wordsOf(name).some((word) => word.startsWith(letter.toLowerCase())));
}

/**
 * The one choice that the words typed so far speak of; undefined where none or several do. The last word may be cut
 * short. Where several have as many of the words, the one that begins with them goes before the others.
 */
export function byWords(typed: string, names: readonly string[]): number | undefined {
  const said = wordsOf(typed);
  const all = names.map(wordsOf);
  const counts = all.map(
    (words) =>
      said.filter((word, i) =>
        words.some((one) => one === word || (i === said.length - 1 && one.startsWith(word))),
      ).length,
  );
  const most = Math.max(0, ...counts);
  if (most === 0) return undefined;
  const best = [...counts.keys()].filter((i) => counts[i] === most);
  const starts = best.filter((i) => said.every((word, at) => bare(all[i]!)[at]?.startsWith(word) === true));
  const whole = starts.filter((i) => bare(all[i]!).join(' ') === said.join(' '));
  const [found] = best.length === 1 ? best : starts.length === 1 ? starts : whole.length === 1 ? whole : [];
  if (found === undefined) return undefined;
  return denies(typed, names[found]!) ? undefined : found;
}

/** Whether words say the opposite of a choice: they deny what it does not, or leave its own denial out. */
function denies(typed: string, name: string): boolean {
  const said = denialsIn(typed);
  const own = denialsIn(name);
  if (said.some((word) => !own.includes(word))) return true;
  const words = bare(wordsOf(name));
  return own.includes(words[0]!) && !isBegun(words[0]!, typed);
}

/** Whether a word stands in what was typed, or is being typed. */
function isBegun(word: string, typed: string): boolean {
  const said = wordsOf(typed);
  return said.includes(word) || word.startsWith(said.at(-1)!);
}

/**
 * The choice that a whole line speaks of: a letter or two of it may be a slip, and are a word of its name or nothing.
 * @param deliberate only its name itself answers
 */
export function byLine(line: string, names: readonly string[], deliberate: boolean): number | undefined {
  const said = wordsOf(line);
  if (deliberate) {
    const named = names.findIndex((name) => wordsOf(name).join(' ') === said.join(' '));
    return named < 0 ? undefined : named;
  }
  const at = byWords(line, names);
  const last = said.at(-1);
  if (at === undefined || last === undefined) return undefined;
  return last.length >= LEAST_LETTERS || wordsOf(names[at]!).includes(last) ? at : undefined;
}

/** Of a word that is cut short. */
const LEAST_LETTERS = 3;

/** Without the words before the one it is known by. */
function bare(words: readonly string[]): readonly string[] {
  const from = words.findIndex((word) => !LEADS.has(word));
  return from < 0 ? words : words.slice(from);
}
