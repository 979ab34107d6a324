/** Metrics of sinking, coming back and settling, for one end. */
import type { End } from '../../bike/sheet.ts';
import type { EndMetric } from './metric.ts';
import {
  eventFrom,
  eventUntil,
  indexAt,
  lastBeyond,
  maxOf,
  meanOf,
  minOf,
  peakIndex,
  swingsThrough,
  whileOn,
  type Run,
} from '../ride/trace-reading.ts';

export const SWING_METRICS: readonly EndMetric[] = [
  {
    stem: 'dive-depth',
    unit: 'mm',
    name: 'dive',
    about: 'how deep in its travel the {end} is at most while it is loaded, its sag included',
    worse: 'up',
    floor: 0.2,
    usual: 60,
    words: { up: 'deeper', down: 'less deep' },
    scenarios: ['berm', 'braking'],
    read: (run, end) =>
      maxOf(run.trace[end].travel, 0, indexAt(run.trace, run.marks.release)) * run.shown[end],
  },
  {
    stem: 'sink-time',
    unit: 's',
    name: 'time to sink',
    about: 'how long the {end} takes to go nine tenths of the way to where the load holds it',
    worse: 'either',
    floor: 0.004,
    usual: 0.3,
    words: { up: 'longer', down: 'shorter' },
    scenarios: ['berm', 'braking'],
    read(run, end) {
      const { travel } = run.trace[end];
      const from = indexAt(run.trace, run.marks[end][0]!);
      const until = indexAt(run.trace, run.marks.release);
      const goal = travel[0]! + 0.9 * (travel[until]! - travel[0]!);
      const up = travel[until]! > travel[0]!;
      return (whileOn(travel, [from, until], { sign: -1, value: goal }, up) - from) * run.trace.interval;
    },
  },
  {
    stem: 'time-to-recover',
    unit: 's',
    name: 'time to come back',
    about: 'how long the {end} takes to come nine tenths of the way back after it is let go',
    worse: 'up',
    floor: 0.004,
    usual: 0.3,
    words: { up: 'longer', down: 'shorter' },
    scenarios: ['berm', 'braking'],
    read(run, end) {
      const { travel } = run.trace[end];
      const from = indexAt(run.trace, run.marks.release);
      const goal = travel[0]! + 0.1 * (travel[from]! - travel[0]!);
      const up = travel[from]! > travel[0]!;
      return (
        (whileOn(travel, [from, run.trace.samples - 1], { sign: 1, value: goal }, up) - from) *
        run.trace.interval
      );
    },
  },
  {
    stem: 'overshoot',
    unit: 'mm',
    name: 'kick-up past sag',
    about:
      'how far the {end} springs back past its sag after it was pressed in; no more than its sag, where it tops out',
    worse: 'up',
    floor: 0.2,
    usual: 10,
    words: { up: 'more', down: 'less' },
    scenarios: ['kerb', 'steep', 'landing', 'lone-hit'],
    read(run, end) {
      const { travel } = run.trace[end];
      const { deepest, until, still } = swing(run, end);
      return Math.max(0, still - minOf(travel, deepest, until)) * run.shown[end];
    },
  },
  {
    stem: 'bounces',
    unit: 'moves',
    name: 'moves before it is still',
    about: 'how often the {end} swings through its sag by more than a twentieth of the first movement',
    worse: 'up',
    floor: 0.5,
    usual: 2,
    words: { up: 'more', down: 'fewer' },
    scenarios: ['kerb', 'steep', 'landing'],
    read(run, end) {
      const { travel } = run.trace[end];
      const { deepest, until, still } = swing(run, end);
      const band = 0.05 * (travel[deepest]! - still);
      return swingsThrough(travel, deepest, until, still, band);
    },
  },
  {
    stem: 'settle-time',
    unit: 's',
    name: 'time to settle',
    about: 'how long until the {end} stays within a tenth of the first movement',
    worse: 'up',
    floor: 0.005,
    usual: 0.5,
    words: { up: 'longer', down: 'shorter' },
    scenarios: ['kerb', 'steep', 'landing'],
    read(run, end) {
      const { travel } = run.trace[end];
      const { deepest, until, still } = swing(run, end);
      const band = 0.1 * (travel[deepest]! - still);
      return (lastBeyond(travel, deepest, until, still, band) - eventFrom(run, end)) * run.trace.interval;
    },
  },
  {
    stem: 'bob',
    unit: 'mm',
    name: 'bob',
    about: 'how far the {end} moves up and down with each pedal stroke',
    worse: 'up',
    floor: 0.1,
    usual: 10,
    words: { up: 'more', down: 'less' },
    scenarios: ['pedalling'],
    read(run, end) {
      const { travel } = run.trace[end];
      const from = eventFrom(run, end);
      return (
        (maxOf(travel, from, run.trace.samples) - minOf(travel, from, run.trace.samples)) * run.shown[end]
      );
    },
  },
];

/** s: the longest an end takes to go down. */
const DOWN = 0.4;

/** s at the end of an event over which the end is taken to be still. */
const STILL = 0.1;

/**
 * The deepest point of an event, where its way back ends, and the travel it comes to rest at, m: one wheel off a kerb
 * tips the bike, and its weight moves with it.
 */
function swing(run: Run, end: End): { deepest: number; until: number; still: number } {
  const { travel } = run.trace[end];
  const from = eventFrom(run, end);
  const until = eventUntil(run, end);
  return {
    deepest: peakIndex(travel, from, Math.min(until, from + indexAt(run.trace, DOWN))),
    until,
    still: meanOf(travel, until - indexAt(run.trace, STILL), until),
  };
}
