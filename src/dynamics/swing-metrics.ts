/** Metrics of sinking, coming back and settling, for one end. */
import type { End } from '../bike/sheet.ts';
import type { EndMetric } from './metric.ts';
import { eventFrom, indexAt, maxOf, minOf, peakIndex, type Run } from './trace-reading.ts';

export const SWING_METRICS: readonly EndMetric[] = [
  {
    stem: 'dive-depth',
    unit: 'mm',
    name: 'dive',
    about: 'how far below sag the {end} sinks while it is loaded',
    worse: 'up',
    floor: 0.2,
    scenarios: ['berm', 'braking'],
    read: (run, end) =>
      (maxOf(run.trace[end].travel, 0, indexAt(run.trace, run.marks.release)) - run.trace[end].travel[0]!) *
      run.shown[end],
  },
  {
    stem: 'sink-time',
    unit: 's',
    name: 'time to sink',
    about: 'how long the {end} takes to go nine tenths of the way to where the load holds it',
    worse: 'either',
    floor: 0.004,
    scenarios: ['berm', 'braking'],
    read(run, end) {
      const { travel } = run.trace[end];
      const from = indexAt(run.trace, run.marks[end][0]!);
      const until = indexAt(run.trace, run.marks.release);
      const goal = travel[0]! + 0.9 * (travel[until]! - travel[0]!);
      const up = travel[until]! > travel[0]!;
      let i = from;
      while (i < until && up === travel[i]! < goal) i++;
      return (i - from) * run.trace.interval;
    },
  },
  {
    stem: 'time-to-recover',
    unit: 's',
    name: 'time to come back',
    about: 'how long the {end} takes to come nine tenths of the way back after it is let go',
    worse: 'up',
    floor: 0.004,
    scenarios: ['berm', 'braking'],
    read(run, end) {
      const { travel } = run.trace[end];
      const from = indexAt(run.trace, run.marks.release);
      const goal = travel[0]! + 0.1 * (travel[from]! - travel[0]!);
      const up = travel[from]! > travel[0]!;
      let i = from;
      while (i < run.trace.samples - 1 && up === travel[i]! > goal) i++;
      return (i - from) * run.trace.interval;
    },
  },
  {
    stem: 'overshoot',
    unit: '%',
    name: 'overshoot',
    about:
      'how far the {end} springs back past its sag after a kerb or a landing, as a share of how deep it went',
    worse: 'up',
    floor: 0.5,
    scenarios: ['kerb', 'steep', 'landing', 'lone-hit'],
    read(run, end) {
      const { travel } = run.trace[end];
      const [deepest, until] = swing(run, end);
      const past = travel[0]! - minOf(travel, deepest, until);
      return (100 * Math.max(0, past)) / Math.max(1e-6, travel[deepest]! - travel[0]!);
    },
  },
  {
    stem: 'bounces',
    unit: 'moves',
    name: 'moves before it is still',
    about: 'how often the {end} swings through its sag by more than a twentieth of the first movement',
    worse: 'up',
    floor: 0.5,
    scenarios: ['kerb', 'steep', 'landing'],
    read(run, end) {
      const { travel } = run.trace[end];
      const [deepest] = swing(run, end);
      const band = 0.05 * (travel[deepest]! - travel[0]!);
      let side = 1;
      let count = 0;
      for (let i = deepest; i < run.trace.samples; i++) {
        const off = travel[i]! - travel[0]!;
        if (off * side < -band) {
          side = -side;
          count++;
        }
      }
      return count;
    },
  },
  {
    stem: 'settle-time',
    unit: 's',
    name: 'time to settle',
    about: 'how long until the {end} stays within a tenth of the first movement',
    worse: 'up',
    floor: 0.005,
    scenarios: ['kerb', 'steep', 'landing'],
    read(run, end) {
      const { travel } = run.trace[end];
      const from = eventFrom(run, end);
      const band = 0.1 * (travel[swing(run, end)[0]]! - travel[0]!);
      let i = run.trace.samples - 1;
      while (i > from && Math.abs(travel[i]! - travel[0]!) <= band) i--;
      return (i - from) * run.trace.interval;
    },
  },
  {
    stem: 'bob',
    unit: 'mm',
    name: 'bob',
    about: 'how far the {end} moves up and down with each pedal stroke',
    worse: 'up',
    floor: 0.1,
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

/** s: how long an end takes to go down, and as long again to come back; and the least of it that shows an overshoot. */
const SWING = 0.4;
const SHORTEST = 0.25;

/**
 * The deepest point of an event and where its way back ends: before the other wheel's event where that leaves time
 * enough, so that what the other end does is left out.
 */
function swing(run: Run, end: End): [number, number] {
  const { trace, marks } = run;
  const from = eventFrom(run, end);
  const lasts = indexAt(trace, SWING);
  const deepest = peakIndex(trace[end].travel, from, Math.min(trace.samples, from + lasts));
  const other = indexAt(trace, marks[end === 'front' ? 'rear' : 'front'][0]!);
  const until = other >= deepest + indexAt(trace, SHORTEST) ? other : trace.samples;
  return [deepest, Math.min(until, trace.samples, deepest + lasts)];
}
