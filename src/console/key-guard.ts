/**
 * Which of the keys that come in were meant for the prompt that stands on the screen. Pure: every time is handed in.
 *
 * A terminal sends bytes and nothing else: a key that is held down looks like a key that is pressed again and again, a
 * paste like somebody typing, and what was typed while the program worked like an answer to what it shows next. Told
 * apart are they by time: nobody answers a question that has stood there for less than a blink, presses different keys
 * a few milliseconds apart, or presses the same key ten times a second.
 */
import { isPaste, isStep, keysOf, LEAVING, pastedText, printedText, RETURN } from './keys.ts';

/** A question cannot be read in less; what comes sooner was typed before it. In milliseconds, like all of these. */
export const READING = 200;
/** The same key sooner than this is one key held down: the slowest usual repeat is a tenth of a second. */
export const REPEAT = 200;
/** Different keys closer together than this were not pressed one after the other by a hand. */
export const BURST = 25;
/** A digit answers by itself: Return sooner than this after the next question stands was meant to end the digit. */
const STRAY_RETURN = 1500;
/** A held key waits this long at most before it repeats; until then its first repeat looks like a second press. */
const FIRST_REPEAT = 1200;

const WORD = /\p{L}/u;
/** What a number begins with. */
const NUMBER = /^\s*[\d.,~]/;

/**
 * choice: single keys answer; text: a line is typed; listen: a letter begins a line, and until then a digit answers;
 * number: a digit begins a line, and until then a letter answers
 */
export type Mode = 'choice' | 'text' | 'listen' | 'number';

export interface KeyGuard {
  /**
   * a prompt now stands on the screen
   * @returns what was said to the first one before it stood there, if it listens; or the key that was meant for one gone back to
   */
  open(mode: Mode, now: number): readonly string[];
  /**
   * it is gone; whatever was not handed on is dropped
   * @param known the next one was read before: it is gone back to, and a key pressed at once is meant for it
   */
  shut(known?: boolean): void;
  /** a key came behind one that was waited with, and is meant for the next prompt if that is known */
  keep(key: string): void;
  /**
   * @param readable false while the program has not looked for keys since the prompt could be read: a program that had to
   * wait for the machine hears late what was typed long before
   * @returns what the prompt gets at once, key by key
   */
  hear(chunk: string, now: number, readable?: boolean): readonly string[];
  /** when a key that waits has waited long enough; undefined when none does */
  readonly due: number | undefined;
  /** the key that waited */
  take(): readonly string[];
}

/**
 * Words that came in one piece, at a prompt where single keys answer. A blank stands in front, so that no letter of them
 * is a key; their Return is not among them. No words: nothing.
 */
function atOnce(chunk: string, keys: readonly string[]): readonly string[] {
  const text = pastedText(chunk).trimStart();
  const isHeld = keys.every((key) => key === keys[0]);
  return /^\p{L}[\p{L}\p{N} '’-]*$/u.test(text) && !isHeld && text.length <= LONGEST_NAME ? [` ${text}`] : [];
}

/** Nobody types a longer name of a choice in one piece. */
const LONGEST_NAME = 40;

/** A key that is held down, or a Return, which answers whatever stands there. */
function isHeldOn(key: string, now: number, before: { readonly key: string; readonly at: number }): boolean {
  return key === RETURN || (key === before.key && now - before.at < FIRST_REPEAT);
}

export function keyGuard(): KeyGuard {
  let prompt: { readonly mode: Mode; readonly since: number } | undefined;
  /** whether a text was begun: then return belongs to it, and may follow at once */
  let begun = false;
  /** letters typed while the program starts; undefined once any prompt stood on the screen */
  let early: string | undefined = '';
  /** the prompt before this one was answered by a digit */
  let afterDigit = false;
  /** the prompt that stands, or is to come, was read before */
  let known = false;
  let kept: string | undefined;
  let waiting: { readonly key: string; readonly due: number } | undefined;
  let last = { key: '', at: Number.NEGATIVE_INFINITY };

  /** A key that would end the prompt: handed on when nothing follows that shows it as held or pasted. */
  const consider = (key: string, now: number, before: typeof last): readonly string[] => {
    const gap = now - before.at;
    const same = key === before.key;
    const earlier = waiting;
    waiting = undefined;
    if ((same && gap < REPEAT) || gap < BURST) return [];
    waiting = { key, due: now + (same && gap < FIRST_REPEAT ? REPEAT : BURST) };
    // Another key was pressed since: the one that waited was not held.
    return earlier === undefined ? [] : [earlier.key];
  };

  const typed = (
    chunk: string,
    keys: readonly string[],
    now: number,
    before: typeof last,
  ): readonly string[] => {
    const [key] = keys as [string];
    if (keys.length > 1) {
      const text = pastedText(chunk);
      waiting = undefined;
      if (text === '') return keys.filter(isStep);
      // A blank in front, so that a text that begins with a digit is no number.
      const lead = prompt?.mode === 'listen' && !begun ? ' ' : '';
      begun = true;
      return [`${lead}${text}`];
    }
    if (prompt?.mode === 'listen' && !begun && (key === RETURN || /^\d$/.test(key)))
      return consider(key, now, before);
    if (key !== RETURN) {
      begun ||= !isStep(key);
      return [key];
    }
    if (!begun) return consider(key, now, before);
    // The last line of a paste that came in pieces, or a key held down since the last prompt.
    if (now - before.at < (before.key === RETURN ? REPEAT : before.key.length > 1 ? BURST : 0)) return [];
    return [key];
  };

  /** Letters are words, which answer nothing by themselves, however soon they come; a number or return is dropped. */
  const soon = (chunk: string): readonly string[] => {
    const text = isStep(chunk) ? '' : printedText(chunk);
    if (text === '') return [];
    if (early !== undefined && (early !== '' || WORD.test(text))) early += text;
    if (prompt?.mode !== 'listen' || !(begun || WORD.test(text))) return [];
    const first = !begun;
    begun = true;
    return [first ? ` ${text}` : text];
  };

  const hear = (chunk: string, now: number, readable = true): readonly string[] => {
    const keys = keysOf(chunk);
    const before = last;
    // Of a paste the last key counts for the time only: `key` stays longer than any single one.
    last = { key: keys.length > 1 ? chunk : (keys[0] ?? ''), at: now };
    if (keys.some((key) => LEAVING.has(key)) && !isPaste(chunk))
      return prompt === undefined ? [] : keys.filter((key) => LEAVING.has(key));
    if (prompt === undefined && known && keys.length === 1 && !isHeldOn(keys[0]!, now, before)) {
      [kept] = keys;
      return [];
    }
    const isRead = known || (prompt !== undefined && now - prompt.since >= READING && readable);
    if (prompt === undefined || keys.length === 0 || !isRead) return soon(chunk);
    if (keys[0] === RETURN && afterDigit && !begun) {
      // Only the first: who means it presses again.
      afterDigit = false;
      if (now - prompt.since < STRAY_RETURN) return [];
    }
    const inLine =
      prompt.mode === 'number' ? begun || NUMBER.test(printedText(chunk)) : prompt.mode !== 'choice';
    if (inLine) return typed(chunk, keys, now, before);
    if (keys.every(isStep)) return keys;
    if (keys.length > 1) {
      waiting = undefined;
      return atOnce(chunk, keys);
    }
    return consider(keys[0]!, now, before);
  };

  return {
    open(mode, now) {
      prompt = { mode, since: now };
      afterDigit = /^\d$/.test(last.key);
      const said = mode === 'listen' && early !== undefined && early !== '' ? [` ${early}`] : [];
      early = undefined;
      waiting = undefined;
      const key = kept;
      kept = undefined;
      if (key !== undefined && (mode === 'choice' || mode === 'number')) {
        begun = mode === 'number' && NUMBER.test(key);
        return [key];
      }
      begun = said.length > 0;
      return said;
    },
    shut(next = false) {
      // Told once more that it is gone, it is no less known.
      known = next || (prompt === undefined && known);
      prompt = undefined;
      waiting = undefined;
    },
    keep(key) {
      if (known) kept = key;
    },
    hear,
    get due() {
      return waiting?.due;
    },
    take() {
      const taken = waiting === undefined ? [] : [waiting.key];
      waiting = undefined;
      return taken;
    },
  };
}
