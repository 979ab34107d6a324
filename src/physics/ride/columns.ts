/** The loops that fill the columns of a drive, over numbers; `machine/` has them in machine code too. */
import { heightOn, PIECE, slopeOn, type PiecedRoad, type Road, type TabledRoad } from './pieces.ts';

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

/** A load over time as numbers: a level, and what rises or falls smoothly from a time on and then stays, times in s. */
export interface Course {
  readonly level: number;
  readonly ramps?: readonly (readonly [by: number, from: number, lasts: number])[];
  /** what swings about that, and how fast, rad/s */
  readonly beat?: readonly [by: number, rate: number];
  /** s over which all of it sets in */
  readonly onset?: number;
}

export type Load = number | Course | ((time: number) => number);

/** How a wheel rolls over a road. */
export interface Rolling {
  readonly start: number;
  readonly speed: number;
  readonly step: number;
  /** s and m by which this wheel comes later */
  readonly lag: number;
  readonly behind: number;
}

/** 0 → 1 over a time, with no kink at either end. */
function ramp(time: number, from: number, lasts: number): number {
  const s = Math.min(1, Math.max(0, (time - from) / lasts));
  return s * s * (3 - 2 * s);
}

/*
 * What a scenario hands in as a function is called by a loop that the engine compiles anew for each, and not in machine code,
 * so only what has no other form is one.
 */

/** A column of one load over time. */
export function over(table: Float64Array, column: number, step: number, load: Load): void {
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
export function byGravity(table: Float64Array): void {
  for (let row = 0; row < table.length; row += DRIVE.width)
    table[row + DRIVE.grip]! /= table[row + DRIVE.gravity]!;
}

/** The road under one wheel, and its rate, in two columns; where it is flat they stay nought. */
export function pavePieces(
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
export function paveTabled(
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
export function paveAny(
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
