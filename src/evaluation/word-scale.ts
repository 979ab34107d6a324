/**
 * The words that rules are written in, in order of what they mean.
 *
 * The scale of a pack holds many phrases that mean nearly the same (often, frequent, likely). A step to such a
 * neighbour says nothing, so the ladder has only the words that at least one rule uses.
 */
import type { CompiledRules } from '../rulebase/compiled.ts';

export interface Rung {
  readonly word: string;
  /** probability, 0..1 */
  readonly value: number;
}

/** The words used for links and base rates, rising. */
export function ladderOf(rules: CompiledRules): Rung[] {
  const used = new Set(
    rules.questions.flatMap((q) => [...q.links.map(([, , s]) => s), ...q.base.filter((b) => b > 0)]),
  );
  // Two words of one value are one rung; the first of the scale names it.
  const byValue = new Map<number, string>();
  for (const [word, value] of Object.entries(rules.scale))
    if (used.has(value) && !byValue.has(value)) byValue.set(value, word);
  return [...byValue].map(([value, word]) => ({ word, value })).sort((a, b) => a.value - b.value);
}

/** The rung nearest in probability; on a tie the lower. */
export function nearestRung(ladder: readonly Rung[], value: number): Rung {
  return ladder.reduce((best, r) => (Math.abs(r.value - value) < Math.abs(best.value - value) ? r : best));
}

/** The rungs next below and above a value that stands on the ladder; one at each end of it. */
export function neighbours(ladder: readonly Rung[], value: number): Rung[] {
  const at = ladder.indexOf(nearestRung(ladder, value));
  return [ladder[at - 1], ladder[at + 1]].filter((r) => r !== undefined);
}
