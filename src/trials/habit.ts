/** A rider's habit of liking whichever run came later, over all the trials in the log. */
import { fitPreference, type Comparison } from './preference.ts';
import { runScores } from './score.ts';
import { counted } from './sequence.ts';
import { normalCdf } from './student.ts';
import type { Trial } from './trial.ts';

export interface Habit {
  /** pairs of neighbouring runs that were rated differently, and how often the later one was rated higher */
  readonly pairs: number;
  readonly laterBetter: number;
  /** log-odds for the later run between two equal settings */
  readonly logOdds: number;
  readonly error: number;
  /** chance that there is a habit of liking the later run */
  readonly chance: number;
}

/** Fewer pairs than this say nothing about a habit. */
const FEWEST_PAIRS = 8;
/** Log-odds; e^1.5 ≈ 4.5 to 1 for a clearly better setting. Judgement; without it one-sided trials never settle. */
const PRIOR_SD = 1.5;

/**
 * Neighbouring runs of each trial compared by their scores, the settings' own merits fitted along.
 *
 * @returns null when there are too few pairs
 */
export function laterHabit(trials: readonly Trial[]): Habit | null {
  const comparisons = trials.flatMap(comparisonsOf);
  if (comparisons.length < FEWEST_PAIRS) return null;
  const fit = fitPreference(comparisons, { priorSd: PRIOR_SD });
  if (fit === null) return null;
  const { estimate, error } = fit.order;
  return {
    pairs: comparisons.length,
    laterBetter: comparisons.filter((pair) => pair.secondWins > 0).length,
    logOdds: estimate,
    error,
    chance: normalCdf(estimate / error),
  };
}

function comparisonsOf(trial: Trial): Comparison[] {
  const runs = counted(trial.ridden);
  const scores = runScores(runs);
  if (scores === null) return [];
  const name = (i: number): string => `${trial.id} ${runs[i]!.arm}`;
  return scores.slice(1).flatMap((score, i): Comparison[] => {
    const before = scores[i]!;
    if (score === before) return [];
    const secondWins = score > before ? 1 : 0;
    return [{ first: name(i), second: name(i + 1), secondWins, firstWins: 1 - secondWins }];
  });
}
