/** What happens to the bike during a run, as tables over time: the road under each wheel, gravity, braking. */
import { GRAVITY } from '../bike/bike.ts';
import { heightOn, PIECE, slopeOn, type PiecedRoad, type Road, type TabledRoad } from './pieces.ts';

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

export type { Road } from './pieces.ts';

/** A load over time as numbers: a level, and what rises or falls smoothly from a time on and then stays, times in s. */
export interface Course {
  readonly level: number;
  readonly ramps?: readonly (readonly [by: number, from: number, lasts: number])[];
  /** what swings about that, and how fast, rad/s */
  readonly beat?: readonly [by: number, rate: number];
  /** s over which all of it sets in */
  readonly onset?: number;
}

type Load = number | Course | ((time: number) => number);

/** 0 → 1 over a time, with no kink at either end. */
function ramp(time: number, from: number, lasts: number): number {
  const s = Math.min(1, Math.max(0, (time - from) / lasts));
  return s * s * (3 - 2 * s);
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
  readonly gravity?: Load;
  readonly braking?: Load;
  readonly chain?: Load;
  readonly push?: Load;
  readonly step?: number;
}

export function makeDrive(parts: DriveParts): Drive {
  const { road = FLAT, speed = 0, wheelbase, start = 0, step = STEP } = parts;
  const steps = Math.round(parts.seconds / step);
  const rows = 2 * steps + 1;
  const table = new Float64Array(rows * DRIVE.width);
  const still = road === FLAT;
  const { gravity = GRAVITY, braking, chain, push, lag = wheelbase / speed } = parts;
  const pave = 'pieces' in road ? pavePieces : 'heights' in road ? paveTabled : paveAny;
  if (!still) {
    pave(table, 0, road as PiecedRoad & TabledRoad, { start, speed, step, lag: 0, behind: 0 });
    const behind = speed === 0 ? wheelbase : 0;
    pave(table, DRIVE.rear, road as PiecedRoad & TabledRoad, {
      start,
      speed,
      step,
      lag: speed === 0 ? 0 : lag,
      behind,
    });
  }
  over(table, DRIVE.gravity, step, gravity);
  if (braking !== undefined) {
    over(table, DRIVE.grip, step, braking);
    byGravity(table);
  }
  if (chain !== undefined) over(table, DRIVE.chain, step, chain);
  if (push !== undefined) over(table, DRIVE.push, step, push);
  return { step, steps, table, perSpeed: still || speed === 0 ? 0 : 1 / speed };
}

/*
 * Loops of their own, over numbers: what a scenario hands in as a function is called by a loop that the engine compiles anew
 * for each, so only what has no other form is one.
 */

/** A column of one load over time. */
function over(table: Float64Array, column: number, step: number, load: Load): void {
  if (typeof load === 'number') all(table, column, load);
  else if (typeof load === 'function') called(table, column, step, load);
  else {
    all(table, column, load.level);
    for (const [by, from, lasts] of load.ramps ?? []) add(table, column, step, by, from, lasts);
    if (load.beat !== undefined) swing(table, column, step, ...load.beat);
    if (load.onset !== undefined) setIn(table, column, step, load.onset);
  }
}

function all(table: Float64Array, column: number, value: number): void {
  for (let at = column; at < table.length; at += DRIVE.width) table[at] = value;
}

/** Nothing is added before a ramp begins. */
function add(
  table: Float64Array,
  column: number,
  step: number,
  by: number,
  from: number,
  lasts: number,
): void {
  let i = Math.max(0, Math.floor((2 * from) / step));
  for (let at = column + i * DRIVE.width; at < table.length; at += DRIVE.width)
    table[at]! += by * ramp((i++ * step) / 2, from, lasts);
}

function swing(table: Float64Array, column: number, step: number, by: number, rate: number): void {
  let i = 0;
  for (let at = column; at < table.length; at += DRIVE.width)
    table[at]! += by * Math.sin((rate * (i++ * step)) / 2);
}

function setIn(table: Float64Array, column: number, step: number, lasts: number): void {
  let i = 0;
  for (let at = column; at < table.length && i * step < 2 * lasts; at += DRIVE.width)
    table[at]! *= ramp((i++ * step) / 2, 0, lasts);
}

function called(table: Float64Array, column: number, step: number, value: (time: number) => number): void {
  let i = 0;
  for (let at = column; at < table.length; at += DRIVE.width) table[at] = value((i++ * step) / 2);
}

/** What the brakes hold, as a share of the load. */
function byGravity(table: Float64Array): void {
  for (let row = 0; row < table.length; row += DRIVE.width)
    table[row + DRIVE.grip]! /= table[row + DRIVE.gravity]!;
}

interface Rolling {
  readonly start: number;
  readonly speed: number;
  readonly step: number;
  /** s and m by which this wheel comes later */
  readonly lag: number;
  readonly behind: number;
}

/** The road under one wheel, and its rate, in two columns; where it is flat they stay nought. */
function pavePieces(
  table: Float64Array,
  column: number,
  { pieces }: PiecedRoad,
  { start, speed, step, lag, behind }: Rolling,
): void {
  let piece = 0;
  let i = 0;
  for (let row = column; row < table.length; row += DRIVE.width) {
    const at = start + speed * ((i++ * step) / 2 - lag) - behind;
    while (piece < pieces.length && at > pieces[piece + PIECE.to]!) piece += PIECE.width;
    if (piece === pieces.length) return;
    if (at <= pieces[piece]!) continue;
    table[row] = heightOn(pieces, piece, at);
    table[row + 1] = speed * slopeOn(pieces, piece, at);
  }
}

/** The same of a road that is a table. */
function paveTabled(
  table: Float64Array,
  column: number,
  { heights, slopes, period }: TabledRoad,
  { start, speed, step, lag, behind }: Rolling,
): void {
  const points = heights.length - 1;
  let i = 0;
  for (let row = column; row < table.length; row += DRIVE.width) {
    const at = start + speed * ((i++ * step) / 2 - lag) - behind;
    const place = ((((at / period) % 1) + 1) % 1) * points;
    const p = Math.min(points - 1, Math.floor(place));
    table[row] = heights[p]! + (place - p) * (heights[p + 1]! - heights[p]!);
    table[row + 1] = speed * (slopes[p]! + (place - p) * (slopes[p + 1]! - slopes[p]!));
  }
}

/** The same of any other road. */
function paveAny(
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
