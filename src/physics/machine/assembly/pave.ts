/** Columns of a drive's table, as `drive.ts` fills them. A row is eight numbers, one for every half step. */
import { cosine, sine } from './engine';

const ROW: usize = 64; // bytes
const PIECE: usize = 48;

export function level(table: usize, rows: i32, value: f64): void {
  for (let i = 0; i < rows; i++) store<f64>(table + <usize>i * ROW, value);
}

function eased(time: f64, from: f64, lasts: f64): f64 {
  const s = Math.min(1, Math.max(0, (time - from) / lasts));
  return s * s * (3 - 2 * s);
}

export function ramp(table: usize, rows: i32, step: f64, by: f64, from: f64, lasts: f64): void {
  for (let i = <i32>Math.max(0, Math.floor((2 * from) / step)); i < rows; i++) {
    const at = table + <usize>i * ROW;
    store<f64>(at, load<f64>(at) + by * eased((<f64>i * step) / 2, from, lasts));
  }
}

export function swing(table: usize, rows: i32, step: f64, by: f64, rate: f64): void {
  for (let i = 0; i < rows; i++) {
    const at = table + <usize>i * ROW;
    store<f64>(at, load<f64>(at) + by * sine((rate * (<f64>i * step)) / 2));
  }
}

export function setIn(table: usize, rows: i32, step: f64, lasts: f64): void {
  for (let i = 0; i < rows && <f64>i * step < 2 * lasts; i++) {
    const at = table + <usize>i * ROW;
    store<f64>(at, load<f64>(at) * eased((<f64>i * step) / 2, 0, lasts));
  }
}

/** One column divided by another. */
export function divide(table: usize, rows: i32, column: i32, by: i32): void {
  for (let i = 0; i < rows; i++) {
    const row = table + <usize>i * ROW;
    const at = row + ((<usize>column) << 3);
    store<f64>(at, load<f64>(at) / load<f64>(row + ((<usize>by) << 3)));
  }
}

/** @param pieces as `pieces.ts` puts them, one after the other, up to `end` */
export function pavePieces(
  table: usize,
  rows: i32,
  pieces: usize,
  end: usize,
  start: f64,
  speed: f64,
  step: f64,
  lag: f64,
  behind: f64,
): void {
  let piece = pieces;
  for (let i = 0; i < rows; i++) {
    const at = start + speed * ((<f64>i * step) / 2 - lag) - behind;
    while (piece < end && at > load<f64>(piece, 8)) piece += PIECE;
    if (piece == end) return;
    if (at <= load<f64>(piece)) continue;
    const row = table + <usize>i * ROW;
    const form = load<f64>(piece, 16);
    const a = load<f64>(piece, 24);
    const b = load<f64>(piece, 32);
    const d = at - load<f64>(piece, 40);
    if (form == 1) {
      store<f64>(row, a * (1 - cosine(b * d)));
      store<f64>(row, speed * (a * b * sine(b * d)), 8);
    } else if (form == 3) {
      store<f64>(row, a + Math.sqrt(b - d * d));
      store<f64>(row, speed * (-d / Math.sqrt(b - d * d)), 8);
    } else if (form == 2) {
      store<f64>(row, a * d * d);
      store<f64>(row, speed * (2 * a * d), 8);
    } else {
      store<f64>(row, a + b * d);
      store<f64>(row, speed * b, 8);
    }
  }
}

function between(values: usize, p: i32, part: f64): f64 {
  const at = values + ((<usize>p) << 3);
  const from = load<f64>(at);
  return from + part * (load<f64>(at, 8) - from);
}

/** @param points pieces of the road's table, of heights and of slopes */
export function paveTabled(
  table: usize,
  rows: i32,
  heights: usize,
  slopes: usize,
  points: i32,
  period: f64,
  start: f64,
  speed: f64,
  step: f64,
  lag: f64,
  behind: f64,
): void {
  for (let i = 0; i < rows; i++) {
    const at = start + speed * ((<f64>i * step) / 2 - lag) - behind;
    const turns = at / period;
    // What is left of a whole turn, from 0 to 1, as `%` leaves it.
    const left = turns - Math.trunc(turns) + 1;
    const place = (left - Math.trunc(left)) * <f64>points;
    const p = min(points - 1, <i32>Math.floor(place));
    const row = table + <usize>i * ROW;
    store<f64>(row, between(heights, p, place - <f64>p));
    store<f64>(row, speed * between(slopes, p, place - <f64>p), 8);
  }
}

/** One wave of a rough road, added to its heights and slopes: a turning vector instead of a cosine a point. */
export function wave(
  heights: usize,
  slopes: usize,
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
    const at = (<usize>p) << 3;
    store<f64>(heights + at, load<f64>(heights + at) + amplitude * c);
    store<f64>(slopes + at, load<f64>(slopes + at) - steepness * s);
    const next = c * turnCos - s * turnSin;
    s = s * turnCos + c * turnSin;
    c = next;
  }
}
