/** Which run comes next, which runs count, and whether the reference is steady. */
import { runScores } from './score.ts';
import type { ArmName, RiddenRun, Trial } from './trial.ts';

/** Steady: the last two reference runs are this close, in points of the 1–7 scale. Judgement, no source. */
export const STEADY = 0.5;
/** Reference runs at the start: at least this many (common practice: two or three), at most that many. */
export const FEWEST_SETTLING = 2;
export const MOST_SETTLING = 4;

/** Runs of one block after the first reference: one direction, reference, the other, reference. */
export const BLOCK = 4;

/** The two arms that are not the reference, in the order in which they are first ridden. */
export function tried(trial: Trial): readonly [ArmName, ArmName] {
  return [trial.arms[1].name, trial.arms[2].name];
}

/** The reference runs before the first change. */
export function opening(ridden: readonly RiddenRun[]): readonly RiddenRun[] {
  const first = ridden.findIndex((run) => run.arm !== 'reference');
  return first < 0 ? ridden : ridden.slice(0, first);
}

/**
 * The runs that are judged: from the last reference run before the first change on.
 * Those before it are for settling in; learning the track is not a straight line, and would bend the drift.
 */
export function counted(ridden: readonly RiddenRun[]): readonly RiddenRun[] {
  return ridden.slice(Math.max(0, opening(ridden).length - 1));
}

/** How far apart the last two reference runs at the start are, in points; undefined before the second. */
export function unsteadiness(ridden: readonly RiddenRun[]): number | undefined {
  const lastTwo = opening(ridden).slice(-2);
  if (lastTwo.length < 2) return undefined;
  const [before, after] = runScores(lastTwo) ?? [];
  return before === undefined || after === undefined ? undefined : Math.abs(after - before);
}

/** Whether the first change may be ridden: steady, or settled in for long enough to stop waiting. */
export function settled(ridden: readonly RiddenRun[]): boolean {
  const runs = opening(ridden).length;
  if (runs >= MOST_SETTLING) return true;
  const apart = unsteadiness(ridden);
  return runs >= FEWEST_SETTLING && apart !== undefined && apart <= STEADY;
}

/** The arm to ride next. */
export function nextArm(trial: Trial): ArmName {
  const { ridden } = trial;
  if (opening(ridden).length === ridden.length && !settled(ridden)) return 'reference';
  return follow(
    tried(trial),
    ridden.map((run) => run.arm),
  );
}

/** The arms of the next `count` runs, as long as the reference is steady as soon as it can be. */
export function upcoming(trial: Trial, count: number): ArmName[] {
  const { ridden } = trial;
  const arms = ridden.map((run) => run.arm);
  const unsettled = opening(ridden).length === ridden.length && !settled(ridden);
  const still = unsettled ? Math.max(1, FEWEST_SETTLING - ridden.length) : 0;
  for (let i = 0; i < count; i++) arms.push(i < still ? 'reference' : follow(tried(trial), arms));
  return arms.slice(ridden.length);
}

/** Runs still to ride until both directions were ridden equally often and the reference came last; 0 = judge. */
export function runsLeft(trial: Trial): number {
  const pair = tried(trial);
  const done = trial.ridden.map((run) => run.arm);
  const ahead = upcoming(trial, MOST_SETTLING + 2 * BLOCK + done.length);
  for (let extra = 0; extra <= ahead.length; extra++) {
    if (balanced(pair, [...done, ...ahead.slice(0, extra)])) return extra;
  }
  return ahead.length;
}

/**
 * Every change is followed by the reference; the change ridden less often comes first; at a tie the order is
 * turned round (A B, B A, …), so that whatever one order favours the next takes back.
 */
function follow([a, b]: readonly [ArmName, ArmName], arms: readonly ArmName[]): ArmName {
  if (arms.at(-1) !== 'reference') return 'reference';
  const ofA = times(arms, a);
  const ofB = times(arms, b);
  if (ofA !== ofB) return ofA < ofB ? a : b;
  return arms.findLast((arm) => arm !== 'reference') === b ? b : a;
}

function balanced([a, b]: readonly [ArmName, ArmName], arms: readonly ArmName[]): boolean {
  return times(arms, a) > 0 && times(arms, a) === times(arms, b) && arms.at(-1) === 'reference';
}

function times(arms: readonly ArmName[], name: ArmName): number {
  return arms.filter((arm) => arm === name).length;
}
