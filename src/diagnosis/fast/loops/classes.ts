/** The loops over the classes of a group, and those from sets to classes and back. */
import type { Counts, f64, i32, Numbers } from '../../../physics/machine/loops/numbers.ts';
import { log2, power } from '../../../physics/machine/loops/numbers.ts';

/** Multiplies each class by the chance of an answer: of each row of its table, from a place on, slope times that and floor. */
export function timesColumn(
  out: Numbers,
  size: i32,
  table: Numbers,
  from: i32,
  m: i32,
  slope: f64,
  floor: f64,
): void {
  let at = from;
  for (let c: i32 = 0; c < size; c++) {
    out[c] = out[c]! * (slope * table[at]! + floor);
    at += m;
  }
}

/** The same of an answer that counts for a share. */
export function timesShare(
  out: Numbers,
  size: i32,
  table: Numbers,
  from: i32,
  m: i32,
  slope: f64,
  floor: f64,
  share: f64,
): void {
  let at = from;
  for (let c: i32 = 0; c < size; c++) {
    out[c] = out[c]! * power(slope * table[at]! + floor, share);
    at += m;
  }
}

export function mix(out: Numbers, size: i32, share: f64, rest: f64): void {
  for (let c: i32 = 0; c < size; c++) out[c] = share * out[c]! + rest;
}

export function between(out: Numbers, a: Numbers, b: Numbers, size: i32, chance: f64): void {
  for (let c: i32 = 0; c < size; c++) out[c] = (1 - chance) * a[c]! + chance * b[c]!;
}

/** How far the surprise at an answer is above its mean, bits. */
export function aboveMean(
  out: Numbers,
  size: i32,
  entropy: Numbers,
  table: Numbers,
  from: i32,
  m: i32,
  slope: f64,
  floor: f64,
): void {
  let at = from;
  for (let c: i32 = 0; c < size; c++) {
    out[c] = -log2(slope * table[at]! + floor) - entropy[c]!;
    at += m;
  }
}

/** Adds every set's weight to that of its class. */
export function scatter(out: Numbers, weights: Numbers, classOf: Counts, sets: i32): void {
  for (let h: i32 = 0; h < sets; h++) {
    const c = classOf[h]!;
    out[c] = out[c]! + weights[h]!;
  }
}

/** By inclusion and exclusion. */
export function turn(out: Numbers, to: Counts, from: Counts, count: i32): void {
  for (let i: i32 = 0; i < count; i++) {
    const at = to[i]!;
    out[at] = out[at]! - out[from[i]!]!;
  }
}

/** The sum of the weights times each of several columns, laid end to end; four at a time, because a sum waits for its last term. */
export function sums(out: Numbers, weights: Numbers, size: i32, columns: Numbers, count: i32): void {
  let k: i32 = 0;
  for (; k + 4 <= count; k += 4) {
    const at = k * size;
    let s0: f64 = 0;
    let s1: f64 = 0;
    let s2: f64 = 0;
    let s3: f64 = 0;
    for (let c: i32 = 0; c < size; c++) {
      const w = weights[c]!;
      s0 += w * columns[at + c]!;
      s1 += w * columns[at + size + c]!;
      s2 += w * columns[at + 2 * size + c]!;
      s3 += w * columns[at + 3 * size + c]!;
    }
    out[k] = s0;
    out[k + 1] = s1;
    out[k + 2] = s2;
    out[k + 3] = s3;
  }
  for (; k < count; k++) {
    const at = k * size;
    let sum: f64 = 0;
    for (let c: i32 = 0; c < size; c++) sum += weights[c]! * columns[at + c]!;
    out[k] = sum;
  }
}
