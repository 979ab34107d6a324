/** What is read off a run, in a mechanic's words. A metric with an end is written once and made for both. */
import { ENDS, type End } from '../bike/sheet.ts';
import type { ScenarioId } from './scenarios.ts';
import {
  airborne,
  depthAt,
  eventFrom,
  indexAt,
  maxOf,
  meanOf,
  minOf,
  peakIndex,
  settledRow,
  variation,
  type Run,
} from './trace-reading.ts';
import { weightedVibration } from './vibration.ts';

export interface Metric {
  /** `overshoot.front`, `pitch-at-exit` */
  readonly id: string;
  readonly end?: End;
  readonly unit: string;
  readonly name: string;
  /** one sentence with the number's meaning and sign */
  readonly about: string;
  /** the way that is worse for a rider; `either` where too much and too little are both bad */
  readonly worse: 'up' | 'down' | 'either';
  /** below this a change is too small to say anything about, in the unit */
  readonly floor: number;
  readonly scenarios: readonly ScenarioId[];
  readonly read: (run: Run) => number;
}

interface EndMetric extends Omit<Metric, 'id' | 'end' | 'read'> {
  readonly stem: string;
  readonly read: (run: Run, end: End) => number;
}

const DEGREES = 180 / Math.PI;
/** Hits of a row before the ones that count as later: four, so from the fifth on. */
const LATER = 4;

const OF_AN_END: readonly EndMetric[] = [
  {
    stem: 'travel-not-recovered',
    unit: 'mm',
    name: 'travel not recovered',
    about:
      'how deep below sag the {end} still is when the next bump of the row comes, from the fifth bump on',
    worse: 'up',
    floor: 0.2,
    scenarios: ['row'],
    read: (run, end) => mean(run.marks[end].slice(LATER).map((t) => depthAt(run, end, t))) * run.shown[end],
  },
  {
    stem: 'peak-force',
    unit: 'N',
    name: 'hardest push of a hit',
    about:
      'how hard the {end} pushes on the frame at its worst; in a row, on average of the hits from the fifth on',
    worse: 'up',
    floor: 5,
    scenarios: ['row', 'lone-hit', 'square-edge', 'landing', 'steep'],
    read(run, end) {
      const { force } = run.trace[end];
      const hits = run.marks[end];
      if (hits.length === 1) return maxOf(force, eventFrom(run, end), run.trace.samples);
      const last = hits.at(-1)! + run.marks.lasts;
      return mean(
        hits.slice(LATER).map((t, i) => {
          const next = hits[LATER + i + 1] ?? last;
          return maxOf(force, indexAt(run.trace, t), indexAt(run.trace, next));
        }),
      );
    },
  },
  {
    stem: 'ride-height',
    unit: 'mm',
    name: 'mean ride height',
    about: 'where the {end} rides on average against its sag; minus = lower',
    worse: 'either',
    floor: 0.2,
    scenarios: ['row', 'chatter'],
    read(run, end) {
      const [from, to] = settledRow(run, end);
      const { travel } = run.trace[end];
      return (travel[0]! - meanOf(travel, from, to)) * run.shown[end];
    },
  },
  {
    stem: 'tyre-load-variation',
    unit: '%',
    name: 'tyre load variation',
    about: 'how much the load on the {end} tyre swings about its mean: less is more grip',
    worse: 'up',
    floor: 0.3,
    scenarios: ['row', 'chatter'],
    read: (run, end) => 100 * variation(run.trace[end].tyre, ...settledRow(run, end)),
  },
  {
    stem: 'time-off-ground',
    unit: '%',
    name: 'time off the ground',
    about: 'share of the time the {end} tyre touches nothing',
    worse: 'up',
    floor: 0.3,
    scenarios: ['row', 'chatter', 'lone-hit', 'square-edge'],
    read: (run, end) => 100 * airborne(run.trace[end], ...window(run, end)),
  },
  {
    stem: 'kick-velocity',
    unit: 'm/s',
    name: 'kick',
    about: 'how fast the frame is still thrown up at the {end} when the {end} has come back to its sag',
    worse: 'up',
    floor: 0.01,
    scenarios: ['lone-hit', 'landing'],
    read(run, end) {
      const { travel, bodyRate } = run.trace[end];
      const from = eventFrom(run, end);
      const deepest = peakIndex(travel, from, indexAt(run.trace, run.marks[end][0]! + run.marks.lasts));
      const last = run.trace.samples - 1;
      let back = deepest;
      while (back < last && travel[back]! > travel[0]!) back++;
      return bodyRate[back]!;
    },
  },
  {
    stem: 'travel-used',
    unit: '%',
    name: 'travel used',
    about: 'how much of its travel the {end} uses at most; 100 % = all of it',
    worse: 'either',
    floor: 0.5,
    scenarios: ['row', 'lone-hit', 'square-edge', 'landing', 'lip', 'berm'],
    read: (run, end) =>
      100 * Math.min(1, run.used(end, maxOf(run.trace[end].travel, eventFrom(run, end), run.trace.samples))),
  },
  {
    stem: 'bottoming',
    unit: 'N',
    name: 'push on the bumper',
    about: 'how hard the {end} hits its bottom-out bumper; 0 = never touches it',
    worse: 'up',
    floor: 15,
    scenarios: ['landing', 'lone-hit', 'lip'],
    read(run, end) {
      const deepest = maxOf(run.trace[end].travel, eventFrom(run, end), run.trace.samples);
      const { from, stiffness } = run.bumper[end];
      return stiffness * Math.max(0, deepest - from) ** 3;
    },
  },
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

const OF_THE_BIKE: readonly Metric[] = [
  {
    id: 'pitch-at-exit',
    unit: '°',
    name: 'nose leaving the berm',
    about:
      'how far the nose rises (+) or drops (−) against standing still, on average over 0.3 s from letting go',
    worse: 'either',
    floor: 0.02,
    scenarios: ['berm'],
    read: (run) => (meanOf(run.trace.pitch, ...exit(run)) - run.trace.pitch[0]!) * DEGREES,
  },
  {
    id: 'front-load-at-exit',
    unit: '%',
    name: 'front share leaving the berm',
    about: 'share of the tyre load that is on the front while the bike is lightest on the way out',
    worse: 'down',
    floor: 0.05,
    scenarios: ['berm'],
    read(run) {
      const front = run.trace.front.tyre;
      const rear = run.trace.rear.tyre;
      let lightest = indexAt(run.trace, run.marks.release);
      for (let i = lightest; i < indexAt(run.trace, run.marks.release + 0.6); i++)
        if (front[i]! + rear[i]! < front[lightest]! + rear[lightest]!) lightest = i;
      const half = indexAt(run.trace, 0.075);
      const onFront = meanOf(front, lightest - half, lightest + half);
      return (100 * onFront) / (onFront + meanOf(rear, lightest - half, lightest + half));
    },
  },
  {
    id: 'pitch-rate-at-lip',
    unit: '°/s',
    name: 'nose-down turn in the air',
    about: 'how fast the bike turns nose-down (+) or nose-up (−) once both wheels have left the lip',
    worse: 'up',
    floor: 0.3,
    scenarios: ['lip'],
    read: (run) =>
      -meanOf(
        run.trace.pitchRate,
        indexAt(run.trace, run.marks.release + 0.05),
        indexAt(run.trace, run.marks.release + 0.25),
      ) * DEGREES,
  },
  {
    id: 'nose-dive',
    unit: '°',
    name: 'nose-down on the brakes',
    about: 'how far the nose drops at most while braking',
    worse: 'up',
    floor: 0.02,
    scenarios: ['braking'],
    read: (run) =>
      (run.trace.pitch[0]! - minOf(run.trace.pitch, 0, indexAt(run.trace, run.marks.release))) * DEGREES,
  },
  {
    id: 'bar-vibration',
    unit: 'm/s²',
    name: 'vibration at the hands',
    about:
      'root mean square at the bars, weighted as ISO 5349-1 does; only for comparing, the rider is a stiff body here',
    worse: 'up',
    floor: 0.02,
    scenarios: ['row', 'chatter'],
    read: (run) => weightedVibration(run.trace.bars, run.trace.step),
  },
];

export const METRICS: readonly Metric[] = [
  ...OF_AN_END.flatMap(({ stem, read, ...metric }) =>
    ENDS.map((end) => ({
      ...metric,
      id: `${stem}.${end}`,
      end,
      name: `${end} ${metric.name}`,
      about: metric.about.replaceAll('{end}', end),
      read: (run: Run) => read(run, end),
    })),
  ),
  ...OF_THE_BIKE,
];

export const METRIC_IDS: readonly string[] = METRICS.map((m) => m.id);

/** The 0.3 s from when a berm lets go. */
function exit(run: Run): [number, number] {
  return [indexAt(run.trace, run.marks.release), indexAt(run.trace, run.marks.release + 0.3)];
}

/**
 * The deepest point of an event and where its way back ends: 0.4 s to get there and 0.4 s from there, so that what the
 * other end does later is left out.
 */
function swing(run: Run, end: End): [number, number] {
  const from = eventFrom(run, end);
  const lasts = indexAt(run.trace, 0.4);
  const deepest = peakIndex(run.trace[end].travel, from, Math.min(run.trace.samples, from + lasts));
  return [deepest, Math.min(run.trace.samples, deepest + lasts)];
}

/** A lone hit: from its start until 0.4 s after it; a row or chatter: once it has built up. */
function window(run: Run, end: End): readonly [number, number] {
  if (run.marks[end].length > 1 || run.marks.lasts > 1) return settledRow(run, end);
  return [eventFrom(run, end), indexAt(run.trace, run.marks[end][0]! + run.marks.lasts + 0.4)];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, v) => sum + v, 0) / Math.max(1, values.length);
}
