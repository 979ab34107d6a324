/** What was so before and is not any more: "it was choppy, now it is lovely", "I had it too firm. Went softer, fine now". */
import type { Statement, Token } from '../tokens.ts';

/**
 * @param at where the statement stands among all of the text
 * @returns for places of a find, whether its sign is told of a time that is over
 */
export function overIn(statements: readonly Statement[], at: number): (places: readonly number[]) => boolean {
  const { tokens, sentence } = statements[at]!;
  const later = statements.slice(at + 1);
  const changed = later.some((s) => s.sentence === sentence && s.tokens.some(({ word }) => word === 'now'));
  const cured = later.some((s) => s.sentence <= sentence + 1 && isFineNow(s.tokens));
  const from = changed || cured ? tokens.findIndex((_, i) => wasAt(tokens, i, cured)) : -1;
  return (places) => from >= 0 && places.at(-1)! > from;
}

/** "Fine now", "all sorted now": nothing else is said there. */
function isFineNow(tokens: readonly Token[]): boolean {
  const words = tokens.filter(({ filler }) => !filler).map(({ word }) => word);
  return words.length <= 3 && words.includes('now') && words.some((word) => FINE.has(word));
}

/** Where a time before begins; "was serviced" and "had it rebuilt" tell what was done, and that stays done. */
function wasAt(tokens: readonly Token[], at: number, cured: boolean): boolean {
  const { word } = tokens[at]!;
  const next = tokens.slice(at + 1, at + 4);
  if (BECAUSE.has(word)) return next.some((t) => t.word.endsWith('ed'));
  const was = word === 'was' || word === 'were' || (cured && word === 'had');
  return was && !next.some((t) => t.word.endsWith('ed'));
}

const BECAUSE = new Set(['cos', 'because', 'cause', "'cause", 'coz']);
const FINE = new Set(['fine', 'good', 'ok', 'okay', 'sorted', 'perfect', 'great', 'alright', 'cured']);
