/** What is typed behind the ratings of a run: its time, a note, or both. */
import { Refusal } from '../../host/io.ts';
import { readTime } from '../commands/trial/run-options.ts';

/** The time in s. */
export interface RestOfRun {
  readonly seconds?: number;
  readonly note?: string;
}

/** A number with its unit, what divides it from the rest, and the rest. */
const TIMED = /^(\d+(?:[.:,]\d+)*)(\s*s(?:ec(?:onds?|s)?)?(?![\p{L}\d]))?([\s,;–—-]*)(.*)$/su;

/** The key that a question takes for what nobody can tell, or the words for it. */
const NO_TIME = /^(?:c|can['’]?t tell)$/i;

/**
 * A time stands first: `61.2, slid once`, `61.2 slid once`, `61.2 s - slid once`. Behind a whole number a blank alone
 * divides nothing, as it may count something: `2 riders in the way`.
 * @throws Refusal where a number stands first and it is not plain that it is the time
 */
export function readRest(typed: string): RestOfRun {
  const text = typed.trim();
  if (text === '' || NO_TIME.test(text)) return {};
  const [, number, unit = '', divider, note] = TIMED.exec(text) ?? [];
  if (number === undefined) return { note: text };
  const plain =
    note === ''
      ? divider === ''
      : divider !== '' && /\p{L}/u.test(note!) && !(isCount(number) && unit === '' && /^\s+$/.test(divider!));
  if (!plain)
    throw new Refusal(
      `${text}: if ${number} is the time, put a comma after it: ${number}, slid once. If it is a note, start it with a word.`,
    );
  const seconds = readTime(number, '')!;
  return { seconds, ...(note === '' ? {} : { note: note! }) };
}

function isCount(number: string): boolean {
  return /^\d+$/.test(number);
}
