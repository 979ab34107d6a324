/** What is said twice in a text, read once. */
import type { Candidate, Reading } from '../matcher.ts';

/** The same thing said twice is one reading: the clearer one, and one that names its end. */
export function withoutRepeats(readings: readonly Reading[]): Reading[] {
  const best = new Map<string, Reading>();
  for (const r of readings) {
    const key = `${r.phrase} ${r.end ?? ''} ${r.negated}`;
    const before = best.get(key);
    if (before === undefined || r.score > before.score) best.set(key, r);
  }
  const atAnEnd = new Set([...best.values()].filter((r) => r.end !== undefined).map(sameSaid));
  const left = [...best.values()].filter((r) => r.end !== undefined || !atAnEnd.has(sameSaid(r)));
  return left.sort(
    (a, b) => a.position - b.position || (a.phrase < b.phrase ? -1 : a.phrase > b.phrase ? 1 : 0),
  );
}

const sameSaid = (r: Reading): string => `${r.phrase} ${r.negated}`;

/**
 * What several readings offer is offered once: by one that tells it rather than by a denial, of those by the first. One
 * with nothing of its own left tells nothing new.
 */
export function offeredOnce(readings: readonly Reading[]): Reading[] {
  const owner = new Map<string, Reading>();
  for (const reading of [...readings].sort((a, b) => Number(a.negated) - Number(b.negated)))
    for (const candidate of reading.candidates)
      if (!owner.has(keyOf(candidate))) owner.set(keyOf(candidate), reading);
  return readings.flatMap((reading) => {
    const candidates = reading.candidates.filter((candidate) => owner.get(keyOf(candidate)) === reading);
    if (candidates.length === reading.candidates.length) return [reading];
    return candidates.length === 0 ? [] : [{ ...reading, candidates }];
  });
}

const keyOf = ({ question, answer }: Candidate): string => `${question}=${answer}`;
