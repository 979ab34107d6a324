/** What is rated after every run. */
import type { Feeling } from './trial.ts';

const COMPLAINT = '{complaint}';

/**
 * @param all those of the rules
 * @param complaint the rider's own words that the change is for; without them nothing is rated that asks for them
 */
export function feelingsFor(all: readonly Feeling[], complaint: string | undefined): Feeling[] {
  return all.flatMap((feeling) => {
    if (!feeling.ask.includes(COMPLAINT)) return [feeling];
    return complaint === undefined
      ? []
      : [{ ...feeling, ask: feeling.ask.replace(COMPLAINT, `"${complaint}"`) }];
  });
}
