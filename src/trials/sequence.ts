/** Which run comes next, and which runs count. */
import { bestRest } from './order.ts';
import type { ArmName, RiddenRun, Trial } from './trial.ts';

/** Runs of one block: after it the trial is judged. */
export const BLOCK = 6;
/** Reference runs before the first block (common practice). */
export const WARM_UP = 1;
/** What the warm-up counts against another run: the rider is still learning the track. Judgement, no source. */
export const WARM_UP_COUNTS = 0.5;

/** The arms that are not the reference, the advised one first. */
export function tried(trial: Trial): readonly ArmName[] {
  return trial.arms.slice(1).map(({ name }) => name);
}

/** The reference runs before the first change. */
export function opening(ridden: readonly RiddenRun[]): readonly RiddenRun[] {
  const first = ridden.findIndex((run) => run.arm !== 'reference');
  return first < 0 ? ridden : ridden.slice(0, first);
}

/** The runs of the blocks: all after the warm-up, which is the last reference run but one before the first change, or the first. */
export function counted(ridden: readonly RiddenRun[]): readonly RiddenRun[] {
  return ridden.slice(Math.max(WARM_UP, opening(ridden).length - 1));
}

/** The reference run before those, if there is one: it warms up the rider and counts in part. Runs before it do not. */
export function warmUp(ridden: readonly RiddenRun[]): RiddenRun | undefined {
  return ridden[Math.max(WARM_UP, opening(ridden).length - 1) - 1];
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
  while (all.length < done + count) {
    const before: ArmName[] = ['reference', ...all];
    all.push(...bestRest(before, tried(trial), BLOCK - (all.length % BLOCK), WARM_UP_COUNTS));
  }
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
