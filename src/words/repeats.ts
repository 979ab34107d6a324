/** What is said twice in a text, read once. */
import type { Reading } from './matcher.ts';

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
