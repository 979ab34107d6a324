/** What is printed for the pocket: a line a run, with blanks to fill by pen. Data only; the words of its frame are the report's. */
import type { RideRules } from '../rulebase/schema/pack.ts';
import { runsLeft, upcoming, warmUpsOf } from './sequence.ts';
import { armOf, tidy, type ArmName, type Feeling, type Trial } from './trial.ts';

export interface PenRow {
  /** 1-based, counting the runs already ridden */
  readonly run: number;
  readonly arm: ArmName;
  /** where the adjuster must stand for this run */
  readonly set: number;
  /** how far to turn it from the run before, + is up; 0 = leave it, except for the sham: turn and turn back */
  readonly turn: number;
  /** the reference run before the first block: it is rated, and counts in part */
  readonly warmUp: boolean;
}

export interface PenSheet {
  readonly trial: string;
  readonly bike?: string;
  readonly setting: string;
  readonly unit: string;
  /** the names of what it can stand at, by number; absent for what is counted */
  readonly names?: readonly string[];
  /** where it stands before and, unless the verdict says otherwise, after the trial */
  readonly reference: number;
  readonly rows: readonly PenRow[];
  readonly feelings: readonly Feeling[];
  readonly feel?: string;
  readonly cautions: readonly string[];
  readonly notes: readonly string[];
  /** how to ride it, for every trial alike */
  readonly rules: readonly string[];
  /** the same of a short trial in few words, for a screen */
  readonly brief: readonly string[];
  /** four runs in turn, which one rider alone can do */
  readonly short?: true;
}

/** The runs still to ride, at least until the trial can be judged. */
export function penRows(trial: Trial, more = 0): PenRow[] {
  const done = trial.ridden.length;
  const arms = upcoming(trial, Math.max(runsLeft(trial), more));
  let stands = armOf(trial, trial.ridden.at(-1)?.arm ?? 'reference')?.set ?? trial.arms[0].set;
  return arms.map((arm, i): PenRow => {
    const set = armOf(trial, arm)!.set;
    const turn = tidy(set - stands);
    stands = set;
    return { run: done + i + 1, arm, set, turn, warmUp: done + i < warmUpsOf(trial) };
  });
}

/** @param more runs, at least */
export function penSheet(trial: Trial, ride: RideRules, more = 0): PenSheet {
  return {
    trial: trial.id,
    ...(trial.bike === undefined ? {} : { bike: trial.bike }),
    setting: trial.change.setting,
    unit: trial.change.unit,
    ...(trial.change.names === undefined ? {} : { names: trial.change.names }),
    reference: trial.arms[0].set,
    rows: penRows(trial, more),
    ...(trial.short === true ? { short: trial.short } : {}),
    feelings: trial.feelings,
    ...(trial.feel === undefined ? {} : { feel: trial.feel }),
    cautions: trial.cautions,
    notes: trial.notes,
    rules: [...ride.first, ...(trial.short === true ? ride.alone : ride.helped), ...ride.last],
    brief: ride.brief,
  };
}
