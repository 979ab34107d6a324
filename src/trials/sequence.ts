/** Which run comes next, and which runs count. */
import { bestRest } from './order.ts';
import type { ArmName, RiddenRun, Trial } from './trial.ts';

/** Runs of one block: after it the trial is judged. */
const BLOCK = 6;
const SHORT_BLOCK = 4;
/** Reference runs before the first block (common practice). */
const WARM_UP = 1;
/** What the warm-up counts against another run: the rider is still learning the track. Judgement, no source. */
export const WARM_UP_COUNTS = 0.5;

type Length = Pick<Trial, 'short'>;

export function blockOf({ short }: Length): number {
  return short === true ? SHORT_BLOCK : BLOCK;
}

/** Runs at the reference before the first block: a short trial has none to spare. */
export function warmUpsOf({ short }: Length): number {
  return short === true ? 0 : WARM_UP;
}

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
export function counted(trial: Length & Pick<Trial, 'ridden'>): readonly RiddenRun[] {
  return trial.ridden.slice(beginOf(trial));
}

/** The reference run before those, if there is one: it warms up the rider and counts in part. Runs before it do not. */
export function warmUp(trial: Length & Pick<Trial, 'ridden'>): RiddenRun | undefined {
  return trial.ridden[beginOf(trial) - 1];
}

/** Place of the first run of the blocks. */
function beginOf(trial: Length & Pick<Trial, 'ridden'>): number {
  return Math.max(warmUpsOf(trial), opening(trial.ridden).length - 1);
}

/** The arm to ride next. */
export function nextArm(trial: Trial): ArmName {
  return upcoming(trial, 1)[0]!;
}

/**
 * The arms of the next `count` runs: a reference run to warm up, then each block in the best order for what was ridden
 * so far; in a short trial in turn.
 */
export function upcoming(trial: Trial, count: number): ArmName[] {
  const warm = Math.max(0, warmUpsOf(trial) - trial.ridden.length);
  const all = counted(trial).map((run) => run.arm);
  const done = all.length;
  const block = blockOf(trial);
  while (all.length < done + count) {
    const before: ArmName[] = ['reference', ...all];
    all.push(
      ...(trial.short === true
        ? inTurn(all, trial)
        : bestRest(before, tried(trial), block - (all.length % block), WARM_UP_COUNTS)),
    );
  }
  return [...Array<ArmName>(warm).fill('reference'), ...all.slice(done)].slice(0, count);
}

/** Runs still to ride until the block is full and every step was ridden; 0 = judge. */
export function runsLeft(trial: Trial): number {
  const done = counted(trial).map((run) => run.arm);
  const part = done.length % blockOf(trial);
  if (done.length > 0 && part === 0 && tried(trial).every((arm) => done.includes(arm))) return 0;
  return Math.max(0, warmUpsOf(trial) - trial.ridden.length) + blockOf(trial) - part;
}

/** Blocks that are full. */
export function blocks(trial: Length & Pick<Trial, 'ridden'>): number {
  return Math.floor(counted(trial).length / blockOf(trial));
}

/** Without the step, with it, without, with: each run is compared with the one before, by whoever rides alone. */
function inTurn(done: readonly ArmName[], trial: Trial): ArmName[] {
  return [done.at(-1) === 'reference' ? tried(trial)[0]! : 'reference'];
}
