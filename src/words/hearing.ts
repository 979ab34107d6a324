/** All that a text says: what may be answers, and what was tried; no words are read as both. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { CompiledWords } from './compiled-words.ts';
import { buildMatcher, type Reading } from './matcher.ts';
import { buildTriedReader, type TriedReading } from './tried.ts';

export interface Hearing {
  /** in the order of the text; readings of the same words are one */
  readonly readings: readonly Reading[];
  readonly tried: readonly TriedReading[];
}

/**
 * Reads the phrases of the rules once.
 * @param compiled of these very rules, where it was kept
 * @returns what hears a text; nothing in it is confirmed
 */
export function buildHearing(
  rules: Pick<CompiledRules, 'words' | 'concepts' | 'endNames' | 'questions'>,
  compiled?: CompiledWords,
): (text: string) => Hearing {
  const matcher = buildMatcher(rules, compiled);
  const reader = buildTriedReader(rules);
  return (text) => {
    const tried = reader.read(text);
    const spans = tried.flatMap((one) => one.spans);
    const free = matcher
      .match(text)
      .filter(({ position, text: { length } }) =>
        spans.every(([start, stop]) => position >= stop || position + length <= start),
      );
    return { readings: asOne(free), tried };
  };
}

/** One reading for the same words said the same way: what they could mean is offered once. */
function asOne(readings: readonly Reading[]): Reading[] {
  const by = new Map<string, Reading>();
  for (const reading of readings) {
    const { ambiguous, negated, end, position, text } = reading;
    const key = ambiguous ? `${by.size}` : `${position} ${text} ${end ?? ''} ${negated}`;
    const before = by.get(key);
    if (before === undefined) by.set(key, reading);
    else {
      const clashes = [...new Set([...(before.clashes ?? []), ...(reading.clashes ?? [])])];
      by.set(key, {
        ...before,
        candidates: distinct([...before.candidates, ...reading.candidates]),
        score: Math.max(before.score, reading.score),
        ...(clashes.length === 0 ? {} : { clashes }),
      });
    }
  }
  return [...by.values()];
}

function distinct(candidates: Reading['candidates']): Reading['candidates'] {
  return candidates.filter(
    (c, i) => candidates.findIndex((d) => d.question === c.question && d.answer === c.answer) === i,
  );
}
