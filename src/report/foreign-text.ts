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
  if (signs.length <= most) return clean;
  return `${signs.slice(0, most).join('').trimEnd()}… (${signs.length - most} characters more ${where})`;
}

/** Messages of several lines, which may quote anything: `�` for what cannot be printed, lines and tabs kept. */
export function printableLines(raw: string): string {
  return raw.replace(UNPRINTABLE, (sign) => (sign === '\n' || sign === '\t' ? sign : '\uFFFD'));
}
