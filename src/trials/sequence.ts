/** Which run comes next, and which runs count. */
import { bestRest } from './order.ts';
import type { ArmName, RiddenRun, Trial } from './trial.ts';

/** Runs of one block: after it the trial is judged. */
export const BLOCK = 6;
/** Reference runs before the first block (common practice). */
export const WARM_UP = 1;

/** The arms that are not the reference, the advised one first. */
export function tried(trial: Trial): readonly ArmName[] {
  return trial.arms.slice(1).map(({ name }) => name);
}

/** The reference runs before the first change. */
export function opening(ridden: readonly RiddenRun[]): readonly RiddenRun[] {
  const first = ridden.findIndex((run) => run.arm !== 'reference');
  return first < 0 ? ridden : ridden.slice(0, first);
}

/** The runs of the blocks: from the last reference run before the first change on, the warm-up never among them. */
export function counted(ridden: readonly RiddenRun[]): readonly RiddenRun[] {
  const before = opening(ridden).length;
  const changed = before < ridden.length;
  return ridden.slice(changed ? Math.max(0, before - 1) : Math.max(WARM_UP, before - 1));
}

/** The reference run before those, if there is one: it warms up the rider and counts in part. Runs before it do not. */
export function warmUp(ridden: readonly RiddenRun[]): RiddenRun | undefined {
  return opening(ridden).at(-2);
}

/** The arm to ride next. */
export function nextArm(trial: Trial): ArmName {
  return upcoming(trial, 1)[0]!;
}

/**
 * The arms of the next `count` runs: a reference run to warm up, then each block in the best order for what was ridden
 * so far.
 */
export function upcoming(trial: Trial, count: number): ArmName[] {
  const warm = Math.max(0, WARM_UP - trial.ridden.length);
  const all = counted(trial.ridden).map((run) => run.arm);
  const done = all.length;
  while (all.length < done + count) all.push(...bestRest(all, tried(trial), BLOCK - (all.length % BLOCK)));
  return [...Array<ArmName>(warm).fill('reference'), ...all.slice(done)].slice(0, count);
}

/** Runs still to ride until the block is full and every step was ridden; 0 = judge. */
export function runsLeft(trial: Trial): number {
  const done = counted(trial.ridden).map((run) => run.arm);
  const part = done.length % BLOCK;
  if (done.length > 0 && part === 0 && tried(trial).every((arm) => done.includes(arm))) return 0;
  return Math.max(0, WARM_UP - trial.ridden.length) + BLOCK - part;
}

/** Blocks that are full. */
export function blocks(ridden: readonly RiddenRun[]): number {
  return Math.floor(counted(ridden).length / BLOCK);
}
