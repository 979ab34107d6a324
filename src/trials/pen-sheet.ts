/** What is printed for the pocket: a line a run, with blanks to fill by pen. Data only; the words of its frame are the report's. */
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

const HIDDEN =
  'Somebody else sets the adjuster and keeps quiet about it. They put a hand on it before every run, even when it stays put. If the rider knows, say so: the trial then counts for less.';

/** How one rider alone is as fair as he can be. */
const ALONE: readonly string[] = [
  'Alone: set it yourself. Ride without the step, with it, without, with. Write each run down at once, before you look at the last one. You know what is set, so the trial counts for less.',
  'With a helper: let them set it and keep quiet about it. Then it counts in full.',
];

const BRIEF: readonly string[] = [
  'Stay inside the limits of the manual; where it disagrees, the manual wins.',
  'Put it back and stop if anything knocks, leaks, feels loose or scares you.',
  'Same track, same lines, same tyres. One easy run first, then the spot itself.',
  'Alone it counts for less. If a helper sets it and keeps quiet, it counts in full.',
];

const rulesFor = (short: boolean): readonly string[] => [
  'Same track, same lines, same tyres and clothing. Change nothing but this one adjuster.',
  ...(short ? ALONE : [HIDDEN]),
  'First run after each change: ride easy, check the brakes.',
  'Rate each run right away, before you talk about it. 7 is always good.',
  'Stop if anything knocks, leaks, feels loose or scares you. Put the adjuster back first.',
  'Turn it gently. Never force it against its stop.',
];

/** The sheet for the runs still to ride, at least until the trial can be judged. */
export function penSheet(trial: Trial, more = 0): PenSheet {
  const reference = trial.arms[0].set;
  const done = trial.ridden.length;
  const arms = upcoming(trial, Math.max(runsLeft(trial), more));
  let stands = armOf(trial, trial.ridden.at(-1)?.arm ?? 'reference')?.set ?? reference;
  const rows = arms.map((arm, i): PenRow => {
    const set = armOf(trial, arm)!.set;
    const turn = tidy(set - stands);
    stands = set;
    return { run: done + i + 1, arm, set, turn, warmUp: done + i < warmUpsOf(trial) };
  });
  return {
    trial: trial.id,
    ...(trial.bike === undefined ? {} : { bike: trial.bike }),
    setting: trial.change.setting,
    unit: trial.change.unit,
    ...(trial.change.names === undefined ? {} : { names: trial.change.names }),
    reference,
    rows,
    ...(trial.short === true ? { short: trial.short } : {}),
    feelings: trial.feelings,
    ...(trial.feel === undefined ? {} : { feel: trial.feel }),
    cautions: trial.cautions,
    notes: trial.notes,
    rules: rulesFor(trial.short === true),
    brief: BRIEF,
  };
}
