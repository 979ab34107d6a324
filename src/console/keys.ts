/** What a terminal sends, cut into keys (ECMA-48 sequences), and what of it is text. */

export const RETURN = '\r';
export const CTRL_C = '\u0003';
const CTRL_D = '\u0004';
export const CTRL_Z = '\u001a';
/** They end the asking, and answer nothing. */
export const LEAVING: ReadonlySet<string> = new Set([CTRL_C, CTRL_D]);

/** Bracketed paste, which any terminal of today knows: it marks a paste, so that no line of it is taken for a key. */
export const PASTE = { on: '\u001b[?2004h', off: '\u001b[?2004l', begin: '\u001b[200~', end: '\u001b[201~' };

// oxlint-disable-next-line no-control-regex -- control sequences are what it is about
const KEY = /\u001b(?:\[[0-?]*[ -/]*[@-~]|O[@-~]|[^\u001b])?|\r\n|[^]/gu;
// oxlint-disable-next-line no-control-regex
const SEQUENCE = /\u001b(?:\[[0-?]*[ -/]*[@-~]|O[@-~]|[^\u001b])?/g;
// oxlint-disable-next-line no-control-regex
const CONTROL = /[\u0000-\u001f\u007f-\u009f]+/g;
/** Arrows, home, end, page, delete, and rubbing out: they move, and answer nothing. */
// oxlint-disable-next-line no-control-regex
const STEP = /^(?:\u001b(?:\[|O)[0-9;]*[ABCDFH]|\u001b\[[1-8]~|[\u007f\b])$/;

/** A line feed is a return: which of the two is sent depends on the terminal. */
export function keysOf(chunk: string): string[] {
  return (chunk.match(KEY) ?? []).map((key) => (key === '\n' || key === '\r\n' ? RETURN : key));
}

export function isPaste(chunk: string): boolean {
  return chunk.startsWith(PASTE.begin);
}

export function isStep(key: string): boolean {
  return STEP.test(key);
}

/** A paste as one line of text: its line ends are blanks, and no part of it is a key. */
export function pastedText(chunk: string): string {
  const text = printedText(chunk);
  return text.trim() === '' ? '' : text.trimEnd();
}

/** What of a chunk is printed, blanks at its ends included: the next chunk may go on with it. */
export function printedText(chunk: string): string {
  return chunk.replaceAll(SEQUENCE, '').replaceAll(/\s+/g, ' ').replaceAll(CONTROL, '');
}

/**
 * Puts a marked paste together that comes in pieces.
 * @returns a function from what was read to whole pieces: a paste with its marks, or what was typed
 */
export function pieces(): (read: string) => string[] {
  let paste: string | undefined;
  return (read) => {
    const out: string[] = [];
    let rest = read;
    while (rest !== '') {
      if (paste === undefined) {
        const at = rest.indexOf(PASTE.begin);
        if (at !== 0) out.push(at < 0 ? rest : rest.slice(0, at));
        if (at < 0) return out;
        paste = '';
        rest = rest.slice(at);
      }
      // Searched from a little before, since the mark itself may come in two pieces.
      const joined: string = paste + rest;
      const end = joined.indexOf(PASTE.end, Math.max(0, paste.length - PASTE.end.length));
      if (end < 0) {
        paste = joined.length > LONGEST_PASTE ? joined.slice(0, LONGEST_PASTE) : joined;
        // Whoever presses Ctrl-C alone wants out, even where the end of a paste was lost.
        if (read === CTRL_C) {
          paste = undefined;
          out.push(read);
        }
        return out;
      }
      out.push(joined.slice(0, end + PASTE.end.length));
      rest = joined.slice(end + PASTE.end.length);
      paste = undefined;
    }
    return out;
  };
}

/** Nobody describes a bike in more. */
const LONGEST_PASTE = 100_000;
