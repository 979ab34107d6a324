/** What somebody said, in quotes, one after the other. */
import { MOST_NAME, printable } from './foreign-text.ts';

/** More than this is a story: nobody reads it back. */
const MOST = 3;

/** `"my hands hurt", "the bike is tired" and 2 more` */
export function quotedList(texts: readonly string[]): string {
  const more = texts.length - MOST;
  const shown = texts.slice(0, MOST).map((text) => `"${printable(text, MOST_NAME)}"`);
  return `${shown.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}
