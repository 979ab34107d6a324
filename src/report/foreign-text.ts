/** Somebody else's text, fit to be printed: nothing invisible that moves other text, and no longer than there is room. */

/** Controls of C0 and C1, halves of surrogate pairs, and the signs that turn the direction of whatever follows. */
const UNPRINTABLE = /[\p{Cc}\p{Cs}\p{Co}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\uFEFF\uFFF9-\uFFFB]/gu;
/** Characters of a case's or a bike's name that are shown. */
export const MOST_NAME = 120;
/** A letter carries a few marks in any language; hundreds of them climb over the lines above. */
const PILED_MARKS = /(\p{M}{4})\p{M}+/gu;

/**
 * One paragraph: white space as single spaces, what cannot be printed as `�`, clipped to `most` characters with a
 * note of how many were left out.
 *
 * @param where to look for the rest
 */
export function printable(raw: string, most: number, where = 'in the case'): string {
  const clean = raw.replace(/\s+/gu, ' ').trim().replace(PILED_MARKS, '$1').replace(UNPRINTABLE, '\uFFFD');
  // By code point, so that no character is cut in two.
  const signs = Array.from(clean);
  const left = (over: number): string => `… (${over} characters more ${where})`;
  // What is cut is never shorter than the note that it was.
  if (signs.length <= most + left(signs.length - most).length) return clean;
  return `${signs.slice(0, most).join('').trimEnd()}${left(signs.length - most)}`;
}

/** Nothing here needs a second look. */
const PLAIN = /^[\n\t\x20-\x7e]*$/;
/** Data in JSON, whole or a piece of a list. */
const JSON_TEXT = /^[\s,]*[[{]/;
/** What the program itself marks text with: strong, quiet, good, warn, and their ends (ECMA-48, SGR). */
// oxlint-disable-next-line no-control-regex -- they are control sequences
const OWN_MARKS = /(\u001b\[(?:1|2|22|32|33|39)m)/u;

/**
 * What goes to standard output, whatever it quotes: `\uFFFD` for what cannot be printed, or its escape in JSON, which
 * loses nothing. Lines, also those that end as in CSV, and tabs are kept.
 *
 * @param marked whether the program marks text in this output
 */
export function printableOut(raw: string, marked: boolean): string {
  if (PLAIN.test(raw)) return raw;
  const escaped = JSON_TEXT.test(raw);
  const clean = (text: string): string =>
    text.replace(UNPRINTABLE, (sign, at: number) => {
      if (sign === '\n' || sign === '\t' || (sign === '\r' && text[at + 1] === '\n')) return sign;
      return escaped
        ? [...Array(sign.length).keys()]
            .map((i) => `\\u${sign.charCodeAt(i).toString(16).padStart(4, '0')}`)
            .join('')
        : '\uFFFD';
    });
  if (!marked) return clean(raw);
  return raw
    .split(OWN_MARKS)
    .map((part, i) => (i % 2 === 1 ? part : clean(part)))
    .join('');
}

/** Messages of several lines, which may quote anything: `�` for what cannot be printed, lines and tabs kept. */
export function printableLines(raw: string): string {
  return raw.replace(UNPRINTABLE, (sign) => (sign === '\n' || sign === '\t' ? sign : '\uFFFD'));
}
