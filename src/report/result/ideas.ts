/** What a list of causes shows to people: the two circuits of one damper in one line. */
import type { Result, ResultCause } from './result.ts';

/** A line: a cause, or a pair by its likelier half, in the words and with the chance of the line. */
export interface ShownCause {
  readonly cause: ResultCause;
  readonly name: string;
  readonly probability: number;
}

/** Less than this of a pair is no more worth a word than a cause alone. */
const WORTH_PAIRING = 0.01;

/** The causes of a result as lines, likeliest first; the lesser half of a listed pair has no line of its own. */
export function shownCauses({ causes }: Pick<Result, 'causes'>): ShownCause[] {
  const paired = causes.filter(isPaired);
  const within = new Set(paired.map((c) => c.pair!.other));
  return causes
    .filter((c) => !within.has(c.id))
    .map((cause) => ({
      cause,
      name: paired.includes(cause) ? cause.pair!.name : cause.name,
      probability: paired.includes(cause) ? cause.pair!.probability : cause.probability,
    }))
    .sort((a, b) => b.probability - a.probability);
}

/** Whether the other circuit adds anything. */
function isPaired({ pair, probability }: ResultCause): boolean {
  return pair !== undefined && pair.probability - probability >= WORTH_PAIRING;
}
