/** A judged trial as evidence: what the `results` of a case may say about it. */
import { JUDGE, type JudgeNumbers } from './decide.ts';
import type { Effect, Judgement } from './judge.ts';
import { changeName, type Trial } from './trial.ts';

/** One entry of a case's `results`. */
export interface TrialResult {
  readonly change: string;
  readonly outcome: 'better' | 'same' | 'worse';
  /** whether the bike stays on this setting */
  readonly kept: boolean;
  readonly trial: string;
}

/**
 * One result for each setting that was ridden and about which something is known: both directions speak.
 *
 * Better is only what the verdict kept; worse needs the same certainty; same means that a difference worth having
 * is unlikely either way. A setting about which nothing is certain gives no result, for that is no evidence.
 */
export function resultsOf(trial: Trial, judgement: Judgement, numbers: JudgeNumbers = JUDGE): TrialResult[] {
  const { setting, from, unit } = trial.change;
  return judgement.effects.flatMap((effect): TrialResult[] => {
    const kept =
      effect.arm === judgement.arm && (judgement.verdict === 'keep' || judgement.verdict === 'further');
    const outcome = kept ? 'better' : outcomeOf(effect, numbers);
    if (effect.arm === 'sham' || outcome === undefined) return [];
    return [{ change: changeName(setting, effect.set - from, unit), outcome, kept, trial: trial.id }];
  });
}

function outcomeOf(effect: Effect, numbers: JudgeNumbers): 'same' | 'worse' | undefined {
  if (1 - effect.chanceBetter >= numbers.sure) return 'worse';
  return effect.chanceWorthwhile < numbers.unlikely && effect.chanceHarmful < numbers.unlikely
    ? 'same'
    : undefined;
}
