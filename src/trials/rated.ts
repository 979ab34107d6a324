/** What the ratings of every trial of a bike say, as evidence for the next diagnosis. */
import { judge } from './judge.ts';
import { resultsOf, type TrialResult } from './outcome.ts';
import type { Trial } from './trial.ts';

/** Those trials of which two settings can be compared; nobody has to have judged them. */
export function ratedTrials(
  trials: readonly Trial[],
): { id: string; case?: string; results: readonly TrialResult[] }[] {
  return trials.flatMap((trial) => {
    const results = resultsOf(trial, judge(trial));
    if (results.length === 0) return [];
    return [{ id: trial.id, ...(trial.case === undefined ? {} : { case: trial.case }), results }];
  });
}
