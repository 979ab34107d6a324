/**
 * Trials of one step on the bike as it stands, as one: a small gain that is felt every time is found by all of their
 * ratings, and by none of them alone.
 *
 * Each trial has a level and a drift of its own, and what the step does is the same in all of them. Every block of every
 * trial is another look at the same question, and is asked for more, as another block of one trial is.
 */
import { posterior, type NoisePrior, type Reading } from './model.ts';
import { runScores } from './score.ts';
import { blocks, counted, warmUp, WARM_UP_COUNTS } from './sequence.ts';
import type { EarlierTrial, RiddenRun, Trial } from './trial.ts';

/** The warm-up, if there was one, and the runs of the blocks. */
export function judgedRuns(trial: Pick<Trial, 'ridden' | 'short'>): readonly RiddenRun[] {
  const warm = warmUp(trial);
  return [...(warm === undefined ? [] : [warm]), ...counted(trial)];
}

/** @param sitting its place among those that count together */
export function readingsOf(
  trial: Pick<Trial, 'ridden' | 'short'>,
  scores: readonly number[],
  sitting = 0,
): Reading[] {
  const warm = warmUp(trial);
  return judgedRuns(trial).map((run, i) => ({
    arm: run.arm,
    score: scores[i]!,
    ...(sitting === 0 ? {} : { sitting }),
    ...(run === warm ? { weight: WARM_UP_COUNTS } : {}),
  }));
}

/** The earlier trials in which the step can be compared by itself; only these count. */
export function earlierSittings(trial: Pick<Trial, 'before'>): readonly EarlierTrial[] {
  return (trial.before ?? []).filter((one) => {
    const scores = runScores(judgedRuns(one));
    return scores !== null && posterior(readingsOf(one, scores), ANY_NOISE) !== null;
  });
}

/** Whether it can be compared does not hang on the scatter. */
const ANY_NOISE: NoisePrior = { sd: 1, weight: 1 };

/** How often the question has been looked at by now: all full blocks, at least 1. */
export function looksOf(trial: Pick<Trial, 'before' | 'ridden' | 'short'>): number {
  const full = [...earlierSittings(trial), trial].reduce((sum, one) => sum + blocks(one), 0);
  return Math.max(1, full);
}

/** Share of the trials whose rider knew the settings, or of which nobody said: belief adds to these alone. 0..1 */
export function openShare(trial: Pick<Trial, 'before' | 'hidden'>): number {
  const all = [...earlierSittings(trial), trial];
  return all.filter(({ hidden }) => hidden !== true).length / all.length;
}

/** The trial by itself: what its own ratings say. */
export function alone({ before: _, ...trial }: Trial): Trial {
  return trial;
}
