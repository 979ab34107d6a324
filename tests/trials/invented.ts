/** Invented trials for the tests. */
import { planTrial, type PlanInput } from '../../src/trials/plan.ts';
import type {
  ArmName,
  Chances,
  Change,
  Expected,
  Feeling,
  RiddenRun,
  Trial,
} from '../../src/trials/trial.ts';

/** As in the base pack when this was written. */
export const EXPECTED: Expected = {
  points: { helped: [1, 0.5], nothing: [0, 0.15], harmed: [-1, 0.5] },
  misled: 0.05,
  open: [0.4, 0.4],
};
export const CHANCES: Chances = { helps: 0.7, harms: 0.05 };
export const FEELINGS: readonly Feeling[] = ['overall', 'grip', 'calm', 'hands'].map((id) => ({
  id,
  ask: id,
  low: 'bad',
  high: 'good',
}));

export function change(over: Partial<Change> = {}): Change {
  return {
    setting: 'front.rebound.low',
    from: 8,
    to: 10,
    unit: 'clicks',
    min: 0,
    max: 16,
    grain: 1,
    ...over,
  };
}

export function planned(over: Partial<PlanInput> = {}): Trial {
  const plan = planTrial({
    id: 't1',
    change: change(),
    chances: CHANCES,
    expected: EXPECTED,
    feelings: FEELINGS,
    ...over,
  });
  if (!plan.ok) throw new Error(plan.problems.map((problem) => problem.message).join(' '));
  return plan.value;
}

export function run(arm: ArmName, rating: number, more: Partial<RiddenRun> = {}): RiddenRun {
  return { arm, ratings: { overall: rating, grip: rating, calm: rating, hands: rating }, ...more };
}

/** `R4 +6 R4 -2`: arm and one rating for all four feelings. */
export function ridden(text: string): RiddenRun[] {
  const arms: Record<string, ArmName> = { R: 'reference', '+': 'plus', '-': 'minus', S: 'sham' };
  return text.split(' ').map((word) => run(arms[word[0]!]!, Number(word.slice(1))));
}

export function rode(text: string, over: Partial<PlanInput> = {}): Trial {
  return { ...planned(over), hidden: true, ridden: ridden(text) };
}
