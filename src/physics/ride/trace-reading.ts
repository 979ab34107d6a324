/** Small readings of a trace that several metrics share. Times in s. */
import type { End } from '../../bike/sheet.ts';
import type { Marks } from '../bike/stages.ts';
import type { EndTrace, Trace } from './trace.ts';

export interface Run {
  readonly trace: Trace;
  readonly marks: Marks;
  /** millimetres a mechanic reads per metre of vertical wheel travel */
  readonly shown: Readonly<Record<End, number>>;
  /** wheel travel where the bumper begins, m, and its force at the wheel per depth³, N/m³ */
  readonly bumper: Readonly<Record<End, { readonly from: number; readonly stiffness: number }>>;
  /** share of the stroke used at a wheel travel */
  readonly used: (end: End, wheelTravel: number) => number;
}

export function indexAt(trace: Trace, time: number): number {
  return Math.min(trace.samples - 1, Math.max(0, Math.round(time / trace.interval)));
}

/** Travel below where the end stood at the start, m of wheel travel, at a time. */
export function depthAt(run: Run, end: End, time: number): number {
  const { travel } = run.trace[end];
  return travel[indexAt(run.trace, time)]! - travel[0]!;
}

export function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  return sum / Math.max(1, to - from);
}

export function maxOf(values: Float64Array, from: number, to: number): number {
  let most = -Infinity;
  for (let i = from; i < to; i++) if (values[i]! > most) most = values[i]!;
  return most;
}

export function minOf(values: Float64Array, from: number, to: number): number {
  let least = Infinity;
  for (let i = from; i < to; i++) if (values[i]! < least) least = values[i]!;
  return least;
}

/** Where a channel is largest. */
export function peakIndex(values: Float64Array, from: number, to: number): number {
  let best = from;
  for (let i = from; i < to; i++) if (values[i]! > values[best]!) best = i;
  return best;
}

/** Where the event of an end begins: its first mark. */
export function eventFrom(run: Run, end: End): number {
  return indexAt(run.trace, run.marks[end][0]!);
}

/** Where it ends: when the other wheel meets its own, where that comes later, else with the record. */
export function eventUntil(run: Run, end: End): number {
  const own = run.marks[end];
  const other = run.marks[end === 'front' ? 'rear' : 'front'][0]!;
  const apart = own.length === 1 && other > own[0]!;
  return apart ? indexAt(run.trace, other) : run.trace.samples;
}

/** The window of a row that is past building up: from the third hit to the end of the last bump. */
export function settledRow(run: Run, end: End): readonly [number, number] {
  const hits = run.marks[end];
  return [
    indexAt(run.trace, hits[Math.min(2, hits.length - 1)]!),
    indexAt(run.trace, hits.at(-1)! + run.marks.lasts),
  ];
}

/** Root mean square about the mean, as a share of the mean. */
export function variation(values: Float64Array, from: number, to: number): number {
  const mean = meanOf(values, from, to);
  let sum = 0;
  for (let i = from; i < to; i++) sum += (values[i]! - mean) ** 2;
  return Math.sqrt(sum / Math.max(1, to - from)) / mean;
}

/** Share of a window during which the tyre carries nothing. */
export function airborne(end: EndTrace, from: number, to: number): number {
  let count = 0;
  for (let i = from; i < to; i++) if (end.tyre[i]! <= 0) count++;
  return count / Math.max(1, to - from);
}

/*
 * Loops by themselves, as those above: where a metric's own reading loops, the engine compiles all that it calls with it, which
 * takes longer than the reading.
 */

/**
 * The first place from which a channel no longer is on a side of a value, or with `there` false no longer is off that side.
 * @param sign 1: above it, -1: below it
 */
export function whileOn(
  values: Float64Array,
  [from, until]: readonly [number, number],
  { sign, value }: { readonly sign: 1 | -1; readonly value: number },
  there = true,
): number {
  let i = from;
  while (i < until && there === sign * values[i]! > sign * value) i++;
  return i;
}

/** The last place, back from `until`, that is further than a band from a middle; `from` where none is. */
export function lastBeyond(
  values: Float64Array,
  from: number,
  until: number,
  middle: number,
  band: number,
): number {
  let i = until - 1;
  while (i > from && Math.abs(values[i]! - middle) <= band) i--;
  return i;
}

/** How often a channel swings through a middle, further than a band; it begins above. */
export function swingsThrough(
  values: Float64Array,
  from: number,
  until: number,
  middle: number,
  band: number,
): number {
  let side = 1;
  let count = 0;
  for (let i = from; i < until; i++) {
    if ((values[i]! - middle) * side < -band) {
      side = -side;
      count++;
    }
  }
  return count;
}

/** Where two channels together are least. */
export function leastTogether(a: Float64Array, b: Float64Array, from: number, to: number): number {
  let least = from;
  for (let i = from; i < to; i++) if (a[i]! + b[i]! < a[least]! + b[least]!) least = i;
  return least;
}

export function sumOfSquares(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]! * values[i]!;
  return sum;
}
