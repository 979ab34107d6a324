/** One find as it is read back: the rider's words, and the answers they could mean. */
import type { Question } from '../rulebase/compiled.ts';
import type { Find } from './align.ts';
import type { Ends } from './ends.ts';
import type { Reading } from './matcher.ts';
import { atEnds, offered, opposites } from './offers.ts';
import type { Token } from './tokens.ts';

/** What is offered of a find. @param ends it speaks of @param negated denied: "no harshness" */
export function reading(
  find: Find,
  tokens: readonly Token[],
  text: string,
  ends: Ends | undefined,
  negated: boolean,
  questions: ReadonlyMap<string, Question>,
): Reading {
  const { phrase } = find.saying;
  const position = tokens[find.places[0]!]!.start;
  const stop = tokens[find.places.at(-1)!]!.stop;
  return {
    phrase: phrase.id,
    text: printable(text.slice(position, stop)),
    position,
    ...(ends === undefined ? {} : { end: ends }),
    negated,
    ambiguous: phrase.ambiguous,
    means: phrase.means,
    separates: unique(phrase.separates.flatMap((id) => atEnds(id, ends, questions))),
    candidates: phrase.ambiguous
      ? []
      : negated
        ? opposites(phrase, ends, questions)
        : offered(phrase, ends, questions),
    ...(phrase.ambiguous && !negated ? { couldShow: offered(phrase, ends, questions) } : {}),
    score: find.score,
  };
}

const unique = <T>(items: readonly T[]): T[] => [...new Set(items)];

/** No control character of a case may reach a terminal, and no reading fills the screen. */
function printable(text: string): string {
  const clean = text.replaceAll(/[\p{C}\p{Z}]+/gu, ' ').trim();
  return clean.length > 80 ? `${clean.slice(0, 77)}...` : clean;
}
