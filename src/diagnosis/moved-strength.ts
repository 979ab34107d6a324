/** One strength of a question moved: what it does to the chance of missing its sign. */
import type { Question } from '../rulebase/compiled.ts';

export interface MovedStrength {
  readonly sign: number;
  /** -1 for a base rate, which holds whatever is off */
  readonly cause: number;
  /** how many times as often as before the sign is missed where that cause is off */
  readonly times: number;
}

/** @returns undefined where more, or something else, than one strength differs, and where its sign was never missed */
export function movedStrength(own: Question, now: Question): MovedStrength | undefined {
  if (own.several !== now.several || own.links.length !== now.links.length) return undefined;
  let found: MovedStrength | undefined;
  for (let sign = 0; sign < own.base.length; sign++) {
    const before = own.base[sign]!;
    const after = now.base[sign]!;
    if (before === after) continue;
    if (found !== undefined || before === 1 || sign === own.default) return undefined;
    found = { sign, cause: -1, times: (1 - after) / (1 - before) };
  }
  for (let i = 0; i < own.links.length; i++) {
    const old = own.links[i]!;
    const link = now.links[i]!;
    if (old === link) continue;
    if (old[0] !== link[0] || old[1] !== link[1]) return undefined;
    if (old[2] === link[2]) continue;
    if (found !== undefined || old[2] === 1 || link[1] === own.default) return undefined;
    found = { sign: link[1], cause: link[0], times: (1 - link[2]) / (1 - old[2]) };
  }
  return found;
}
