/** A trial as evidence: what the `results` of a case may say about it, whatever its verdict. */
import type { Deed } from '../bike/deed.ts';
import { JUDGE, type JudgeNumbers } from './decide.ts';
import { judge, type Effect, type Judgement } from './judge.ts';
import { leaning } from './leaning.ts';
import { alone } from './pooled.ts';
import { tidy, type Trial } from './trial.ts';

/** One entry of a case's `results`. */
export interface TrialResult {
  readonly change: Deed;
  readonly outcome: 'better' | 'same' | 'worse';
  /** whether the bike stays on this setting */
  readonly kept: boolean;
  readonly trial: string;
  /** how much better it was rated, and the standard deviation of that, on the 1–7 scale */
  readonly points: number;
  readonly error: number;
}

/**
 * One result for each setting that was ridden and can be compared, however little is certain about it: what the
 * ratings say is in `points` and `error`, and weak evidence weighs little. The word is for people; belief goes by the
 * numbers, and those are of this trial alone: the earlier ones that counted in its verdict have told theirs.
 */
export function resultsOf(trial: Trial, judgement: Judgement, numbers: JudgeNumbers = JUDGE): TrialResult[] {
  const { setting, from, unit } = trial.change;
  const { effects } = trial.before === undefined ? judgement : judge(alone(trial), numbers);
  return effects.flatMap((effect): TrialResult[] => {
    if (effect.arm === 'sham') return [];
    const kept =
      effect.arm === judgement.arm && (judgement.verdict === 'keep' || judgement.verdict === 'further');
    const { points, error } = effect.measured;
    return [
      {
        change: { changes: [{ setting, by: tidy(effect.set - from), unit }] },
        outcome: kept
          ? judgement.byGauge === true
            ? asKept(effect, numbers)
            : 'better'
          : wordFor(effect, numbers),
        kept,
        trial: trial.id,
        points: round(points),
        error: round(error),
      },
    ];
  });
}

/** What a gauge kept was not clearly worse, whatever the middle of its ratings. */
function asKept(effect: Effect, numbers: JudgeNumbers): TrialResult['outcome'] {
  return wordFor(effect, numbers) === 'better' ? 'better' : 'same';
}

/**
 * As the verdict says it; what is neither clearly better nor clearly worse made no clear difference. Worse is what was rated worse:
 * what belief in the advice may have added is no rating.
 */
function wordFor(effect: Effect, numbers: JudgeNumbers): TrialResult['outcome'] {
  if (effect.high < 0) return 'worse';
  return effect.measured.points > numbers.worth && leaning({ effects: [effect] }, numbers) === 'better'
    ? 'better'
    : 'same';
}

/** As it is kept in the log; a hundredth of a point is far below what anybody can rate. */
function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}

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
