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
  let found: MovedStrength | undefined;
  const isOther = (sign: number, cause: number, before: number, after: number): boolean => {
    if (found !== undefined || before === 1 || sign === own.default) return true;
    found = { sign, cause, times: (1 - after) / (1 - before) };
    return false;
  };
  if (own.several !== now.several || own.links.length !== now.links.length) return undefined;
  for (let a = 0; a < own.base.length; a++)
    if (own.base[a] !== now.base[a] && isOther(a, -1, own.base[a]!, now.base[a]!)) return undefined;
  for (let i = 0; i < own.links.length; i++) {
    const old = own.links[i]!;
    const link = now.links[i]!;
    if (old === link) continue;
    if (old[0] !== link[0] || old[1] !== link[1]) return undefined;
    if (old[2] !== link[2] && isOther(link[1], link[0], old[2], link[2])) return undefined;
  }
  return found;
}
