/** Small readings of a trace that several metrics share; their loops are in `machine/loops/readings.ts`. Times in s. */
import type { End } from '../../bike/sheet.ts';
import type { Marks } from '../bike/stages.ts';
import { machine } from '../machine/machine.ts';
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

/** A reading of one channel between two samples, the second left out. */
type Reading = (values: Float64Array, from: number, to: number) => number;

type Loop = 'meanOf' | 'maxOf' | 'minOf' | 'sumOfSquares' | 'variation' | 'shareOfNone' | 'peakIndex';

const reading =
  (loop: Loop): Reading =>
  (values, from, to) => {
    const { code, place } = machine();
    return code[loop](place([values])[0], from, to);
  };

export const meanOf = reading('meanOf');
export const maxOf = reading('maxOf');
export const minOf = reading('minOf');
export const sumOfSquares = reading('sumOfSquares');
/** Root mean square about the mean, as a share of the mean. */
export const variation = reading('variation');
/** Where a channel is largest. */
export const peakIndex = reading('peakIndex');
const shareOfNone = reading('shareOfNone');

/** Share of a window during which the tyre carries nothing. */
export function airborne({ tyre }: EndTrace, from: number, to: number): number {
  return shareOfNone(tyre, from, to);
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
  const { code, place } = machine();
  const [channel] = place([values]);
  return code[there ? 'whileAbove' : 'untilAbove'](channel, from, until, sign, value);
}

/** The last place, back from `until`, that is further than a band from a middle; `from` where none is. */
export function lastBeyond(
  values: Float64Array,
  from: number,
  until: number,
  middle: number,
  band: number,
): number {
  const { code, place } = machine();
  return code.lastBeyond(place([values])[0], from, until, middle, band);
}

/** How often a channel swings through a middle, further than a band; it begins above. */
export function swingsThrough(
  values: Float64Array,
  from: number,
  until: number,
  middle: number,
  band: number,
): number {
  const { code, place } = machine();
  return code.swingsThrough(place([values])[0], from, until, middle, band);
}

/** Where two channels of one trace together are least. */
export function leastTogether(a: Float64Array, b: Float64Array, from: number, to: number): number {
  const { code, place } = machine();
  return code.leastTogether(...place([a, b]), from, to);
}
