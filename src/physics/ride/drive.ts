/** What happens to the bike during a run, as tables over time: the road under each wheel, gravity, braking. */
import { GRAVITY } from '../bike/bike.ts';

export interface Drive {
  /** step of the integrator, s, and how many */
  readonly step: number;
  readonly steps: number;
  /** a row of `DRIVE.width` numbers for every half step: 2·steps + 1 rows */
  readonly table: Float64Array;
  /** s/m: 1 ÷ speed along the road, so that a rate of the road gives its slope; 0 standing */
  readonly perSpeed: number;
}

/** Where things stand in a row. */
export const DRIVE = {
  /** road under the wheels, m, and its rates, m/s */
  front: 0,
  frontRate: 1,
  rear: 2,
  rearRate: 3,
  /** square to the ground, m/s² */
  gravity: 4,
  /** what the brakes hold, as a share of the load on each tyre */
  grip: 5,
  /** what the chain pulls the bike forward with, m/s² */
  chain: 6,
  /** what the rider's legs push beyond standing, m/s² of the rider's mass */
  push: 7,
  width: 8,
} as const;

/**
 * 1 ms. The fastest motion of the bike is a wheel between tyre and bumper, up to about 120 Hz; dampers with a steep curve
 * ask for less (see `stepFor`). Half of it moves no metric by more than a fifth of what a rider can feel.
 */
export const STEP = 0.001;

/** Height in m and slope of the road at a distance along it, m. */
export interface Road {
  height(at: number): number;
  slope(at: number): number;
}

const FLAT: Road = { height: () => 0, slope: () => 0 };

export interface DriveParts {
  readonly seconds: number;
  readonly road?: Road;
  /** m/s along the road */
  readonly speed?: number;
  /** m; the rear wheel meets the road this much later */
  readonly wheelbase: number;
  /** s; how much later instead, where the bike is let settle between its wheels */
  readonly lag?: number;
  /** place of the front wheel at the start, m */
  readonly start?: number;
  /** m/s² at a time in s; default: gravity on the flat, no braking */
  readonly gravity?: (time: number) => number;
  readonly braking?: (time: number) => number;
  readonly chain?: (time: number) => number;
  readonly push?: (time: number) => number;
  readonly step?: number;
}

export function makeDrive(parts: DriveParts): Drive {
  const { road = FLAT, speed = 0, wheelbase, start = 0, step = STEP } = parts;
  const steps = Math.round(parts.seconds / step);
  const rows = 2 * steps + 1;
  const table = new Float64Array(rows * DRIVE.width);
  const still = road === FLAT;
  const { gravity, braking, chain, push, lag = wheelbase / speed } = parts;
  if (!still) {
    pave(table, 0, road, { start, speed, step, lag: 0, behind: 0 });
    const behind = speed === 0 ? wheelbase : 0;
    pave(table, DRIVE.rear, road, { start, speed, step, lag: speed === 0 ? 0 : lag, behind });
  }
  if (gravity === undefined) all(table, DRIVE.gravity, GRAVITY);
  else over(table, DRIVE.gravity, step, gravity);
  if (braking !== undefined) {
    over(table, DRIVE.grip, step, braking);
    byGravity(table);
  }
  if (chain !== undefined) over(table, DRIVE.chain, step, chain);
  if (push !== undefined) over(table, DRIVE.push, step, push);
  return { step, steps, table, perSpeed: still || speed === 0 ? 0 : 1 / speed };
}

/*
 * Loops of their own: every scenario hands in other functions, and what the engine compiled for the last one's it throws
 * away, so each should be cheap to compile.
 */

/** A column of one number. */
function all(table: Float64Array, column: number, value: number): void {
  for (let at = column; at < table.length; at += DRIVE.width) table[at] = value;
}

/** What the brakes hold, as a share of the load. */
function byGravity(table: Float64Array): void {
  for (let row = 0; row < table.length; row += DRIVE.width)
    table[row + DRIVE.grip]! /= table[row + DRIVE.gravity]!;
}

/** A column from a function of time. */
function over(table: Float64Array, column: number, step: number, value: (time: number) => number): void {
  let i = 0;
  for (let at = column; at < table.length; at += DRIVE.width) table[at] = value((i++ * step) / 2);
}

interface Rolling {
  readonly start: number;
  readonly speed: number;
  readonly step: number;
  /** s and m by which this wheel comes later */
  readonly lag: number;
  readonly behind: number;
}

/** The road under one wheel, and its rate, in two columns. */
function pave(
  table: Float64Array,
  column: number,
  road: Road,
  { start, speed, step, lag, behind }: Rolling,
): void {
  let i = 0;
  for (let row = column; row < table.length; row += DRIVE.width) {
    const at = start + speed * ((i++ * step) / 2 - lag) - behind;
    table[row] = road.height(at);
    table[row + 1] = speed * road.slope(at);
  }
}
