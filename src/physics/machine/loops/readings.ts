/** What is read off one channel of a trace, from one sample to before another; `ride/trace-reading.ts` says what for. */
import type { f64, i32, Numbers } from './numbers.ts';

export function meanOf(values: Numbers, from: i32, to: i32): f64 {
  let sum: f64 = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  const count: f64 = to > from ? to - from : 1;
  return sum / count;
}

export function maxOf(values: Numbers, from: i32, to: i32): f64 {
  let most: f64 = -Infinity;
  for (let i = from; i < to; i++) if (values[i]! > most) most = values[i]!;
  return most;
}

export function minOf(values: Numbers, from: i32, to: i32): f64 {
  let least: f64 = Infinity;
  for (let i = from; i < to; i++) if (values[i]! < least) least = values[i]!;
  return least;
}

export function sumOfSquares(values: Numbers, from: i32, to: i32): f64 {
  let sum: f64 = 0;
  for (let i = from; i < to; i++) sum += values[i]! * values[i]!;
  return sum;
}

/** Root mean square about the mean, as a share of the mean. */
export function variation(values: Numbers, from: i32, to: i32): f64 {
  const mean = meanOf(values, from, to);
  let sum: f64 = 0;
  for (let i = from; i < to; i++) {
    const off = values[i]! - mean;
    sum += off * off;
  }
  const count: f64 = to > from ? to - from : 1;
  return Math.sqrt(sum / count) / mean;
}

/** Share of the samples that are nothing or less. */
export function shareOfNone(values: Numbers, from: i32, to: i32): f64 {
  let none: f64 = 0;
  for (let i = from; i < to; i++) if (values[i]! <= 0) none += 1;
  const count: f64 = to > from ? to - from : 1;
  return none / count;
}

/** Where the channel is largest. */
export function peakIndex(values: Numbers, from: i32, to: i32): i32 {
  let best: i32 = from;
  for (let i = from; i < to; i++) if (values[i]! > values[best]!) best = i;
  return best;
}

/** Where two channels together are least. */
export function leastTogether(a: Numbers, b: Numbers, from: i32, to: i32): i32 {
  let least: i32 = from;
  for (let i = from; i < to; i++) if (a[i]! + b[i]! < a[least]! + b[least]!) least = i;
  return least;
}

/**
 * The first place from which the channel no longer is above a value.
 * @param sign 1: as said; -1: the channel and the value with their signs turned
 */
export function whileAbove(values: Numbers, from: i32, until: i32, sign: f64, value: f64): i32 {
  let i: i32 = from;
  while (i < until && sign * values[i]! > sign * value) i++;
  return i;
}

/** The first place from which it is. */
export function untilAbove(values: Numbers, from: i32, until: i32, sign: f64, value: f64): i32 {
  let i: i32 = from;
  while (i < until && !(sign * values[i]! > sign * value)) i++;
  return i;
}

/** The last place, back from `until`, that is further than a band from a middle; `from` where none is. */
export function lastBeyond(values: Numbers, from: i32, until: i32, middle: f64, band: f64): i32 {
  let i: i32 = until - 1;
  while (i > from && Math.abs(values[i]! - middle) <= band) i--;
  return i;
}

/** How often the channel swings through a middle, further than a band; it begins above. */
export function swingsThrough(values: Numbers, from: i32, until: i32, middle: f64, band: f64): i32 {
  let side: f64 = 1;
  let count: i32 = 0;
  for (let i = from; i < until; i++) {
    if ((values[i]! - middle) * side < -band) {
      side = -side;
      count++;
    }
  }
  return count;
}
