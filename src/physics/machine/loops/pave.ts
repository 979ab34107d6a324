/** Columns of a drive's table, a row for every half step: loads over time, and the road under a wheel. */
import type { f64, i32, Numbers } from './numbers.ts';
import { cosine, sine, whole } from './numbers.ts';
import { ROW } from './rows.ts';

const PIECE: i32 = 6;

export function level(table: Numbers, column: i32, rows: i32, value: f64): void {
  for (let i = 0; i < rows; i++) table[column + i * ROW] = value;
}

/** 0 → 1 over a time, with no kink at either end. */
function eased(time: f64, from: f64, lasts: f64): f64 {
  const s = Math.min(1, Math.max(0, (time - from) / lasts));
  return s * s * (3 - 2 * s);
}

/** Adds what rises smoothly from a time on; nothing is added before. */
export function ramp(
  table: Numbers,
  column: i32,
  rows: i32,
  step: f64,
  by: f64,
  from: f64,
  lasts: f64,
): void {
  for (let i: i32 = whole(Math.max(0, Math.floor((2 * from) / step))); i < rows; i++) {
    const at = column + i * ROW;
    table[at] = table[at]! + by * eased((i * step) / 2, from, lasts);
  }
}

export function swing(table: Numbers, column: i32, rows: i32, step: f64, by: f64, rate: f64): void {
  for (let i = 0; i < rows; i++) {
    const at = column + i * ROW;
    table[at] = table[at]! + by * sine((rate * (i * step)) / 2);
  }
}

export function setIn(table: Numbers, column: i32, rows: i32, step: f64, lasts: f64): void {
  for (let i = 0; i < rows && i * step < 2 * lasts; i++) {
    const at = column + i * ROW;
    table[at] = table[at]! * eased((i * step) / 2, 0, lasts);
  }
}

/** One column divided by another. */
export function divide(table: Numbers, column: i32, rows: i32, by: i32): void {
  for (let i = 0; i < rows; i++) {
    const at = column + i * ROW;
    table[at] = table[at]! / table[by + i * ROW]!;
  }
}

/** Height in m on the piece of a road that begins at a place of the list; `ride/pieces.ts` says what a piece is. */
export function heightOn(pieces: Numbers, piece: i32, x: f64): f64 {
  const form = pieces[piece + 2]!;
  const a = pieces[piece + 3]!;
  const b = pieces[piece + 4]!;
  const d = x - pieces[piece + 5]!;
  if (form === 1) return a * (1 - cosine(b * d));
  if (form === 3) return a + Math.sqrt(b - d * d);
  return form === 2 ? a * d * d : a + b * d;
}

/** Slope of the same. */
export function slopeOn(pieces: Numbers, piece: i32, x: f64): f64 {
  const form = pieces[piece + 2]!;
  const a = pieces[piece + 3]!;
  const b = pieces[piece + 4]!;
  const d = x - pieces[piece + 5]!;
  if (form === 1) return a * b * sine(b * d);
  if (form === 3) return -d / Math.sqrt(b - d * d);
  return form === 2 ? 2 * a * d : b;
}

/**
 * The road under one wheel, and its rate, in two columns; where it is flat they stay as they are.
 * @param end where the list of pieces ends
 */
export function pavePieces(
  table: Numbers,
  column: i32,
  rows: i32,
  pieces: Numbers,
  end: i32,
  start: f64,
  speed: f64,
  step: f64,
  lag: f64,
  behind: f64,
): void {
  let piece: i32 = 0;
  for (let i = 0; i < rows; i++) {
    const at = start + speed * ((i * step) / 2 - lag) - behind;
    while (piece < end && at > pieces[piece + 1]!) piece += PIECE;
    if (piece === end) return;
    if (at <= pieces[piece]!) continue;
    const row = column + i * ROW;
    table[row] = heightOn(pieces, piece, at);
    table[row + 1] = speed * slopeOn(pieces, piece, at);
  }
}

function between(values: Numbers, p: i32, part: f64): f64 {
  return values[p]! + part * (values[p + 1]! - values[p]!);
}

/** Where in a table of `points` pieces over one period of a road a place is; a remainder would cost a call. */
function placeIn(points: i32, period: f64, at: f64): f64 {
  const turns = at / period;
  const left = turns - Math.trunc(turns) + 1;
  return (left - Math.trunc(left)) * points;
}

/** Rounding may put a place at the very end, where no piece begins. */
function pieceAt(points: i32, place: f64): i32 {
  const p = whole(place);
  return p < points ? p : points - 1;
}

/** Such a table read by straight lines. */
export function readPeriod(values: Numbers, points: i32, period: f64, at: f64): f64 {
  const place = placeIn(points, period, at);
  const p = pieceAt(points, place);
  return between(values, p, place - p);
}

/** The same as `pavePieces` of a road that is a table, of heights and of slopes. */
export function paveTabled(
  table: Numbers,
  column: i32,
  rows: i32,
  heights: Numbers,
  slopes: Numbers,
  points: i32,
  period: f64,
  start: f64,
  speed: f64,
  step: f64,
  lag: f64,
  behind: f64,
): void {
  for (let i = 0; i < rows; i++) {
    const at = start + speed * ((i * step) / 2 - lag) - behind;
    const row = column + i * ROW;
    const place = placeIn(points, period, at);
    const p = pieceAt(points, place);
    table[row] = between(heights, p, place - p);
    table[row + 1] = speed * between(slopes, p, place - p);
  }
}

/**
 * One wave of a rough road, added to its heights and slopes: a turning vector instead of a cosine a point; the period is
 * short enough that rounding does not add up.
 */
export function wave(
  heights: Numbers,
  slopes: Numbers,
  points: i32,
  amplitude: f64,
  steepness: f64,
  turnCos: f64,
  turnSin: f64,
  cosAtFirst: f64,
  sinAtFirst: f64,
): void {
  let c = cosAtFirst;
  let s = sinAtFirst;
  for (let p = 0; p <= points; p++) {
    heights[p] = heights[p]! + amplitude * c;
    slopes[p] = slopes[p]! - steepness * s;
    const next = c * turnCos - s * turnSin;
    s = s * turnCos + c * turnSin;
    c = next;
  }
}
