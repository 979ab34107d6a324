/** Which end a sentence speaks of that names none: the only one that was named before, where a sign was told of it. */
import type { Carried, Ends, mentionsIn } from './ends.ts';
import type { Reading } from './matcher.ts';

export interface EndKept {
  /** @param mentions of a statement */
  named(mentions: ReturnType<typeof mentionsIn>): void;
  /** @param readings of signs, none of them that all is well */
  told(readings: readonly Reading[]): void;
  /** @param carried what the sentence before spoke of last @returns what is left of it in the next one */
  after(carried: Carried): Carried;
}

/** For one text: "The rear feels dead. It never comes back up", but not "The fork is new. It kicks". */
export function keptEnd(): EndKept {
  const named = new Set<Ends>();
  const signs = new Set<Ends>();
  return {
    named(mentions) {
      for (const { ends, weak } of mentions) if (!weak) named.add(ends);
    },
    told(readings) {
      for (const { end, negated, candidates } of readings)
        if (end !== undefined && !negated && candidates.length > 0) signs.add(end);
    },
    after: (carried) =>
      carried !== undefined && carried !== 'both' && named.size === 1 && signs.has(carried)
        ? carried
        : undefined,
  };
}
