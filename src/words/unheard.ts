/** What of a text nothing was heard in: it is said, rather than dropped without a word. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import { endVocabulary } from './end-names.ts';
import type { Hearing } from './hearing.ts';
import { NEW_PART } from './language.ts';
import { statementsOf, type Token } from './tokens.ts';

/** A part with fewer words that mean something is no statement: "today", "so". */
const LEAST_WORDS = 2;

/**
 * The parts of a text, between commas, stops and "and", of which no word was heard.
 * @returns as they were said, in their order
 */
export function unheard(
  text: string,
  { readings, tried, wishes }: Hearing,
  { endNames }: Pick<CompiledRules, 'endNames'>,
): string[] {
  const heard = [
    ...readings.flatMap((r) => [[r.position, r.position + r.text.length] as const, ...(r.joined ?? [])]),
    ...tried.flatMap(({ spans }) => spans),
    ...wishes.map(({ of }) => of),
  ];
  const isHeard = ({ start, stop }: Token): boolean =>
    heard.some(([from, until]) => start < until && from < stop);
  return statementsOf(text, endVocabulary(endNames))
    .flatMap(({ tokens }) => partsOf(tokens))
    .filter((part) => part.filter(({ filler }) => !filler).length >= LEAST_WORDS && !part.some(isHeard))
    .map((part) => {
      const [first, second] = part;
      return text.slice((NEW_PART.has(first!.word) ? second! : first!).start, part.at(-1)!.stop);
    });
}

function partsOf(tokens: readonly Token[]): Token[][] {
  const parts: Token[][] = [];
  for (const token of tokens) {
    const last = parts.at(-1);
    if (last !== undefined && last[0]!.part === token.part) last.push(token);
    else parts.push([token]);
  }
  return parts;
}
