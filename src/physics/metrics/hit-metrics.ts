/** Metrics of hits and rough ground, for one end. */
import type { End } from '../../bike/sheet.ts';
import type { EndMetric } from './metric.ts';
import {
  airborne,
  depthAt,
  eventFrom,
  eventUntil,
  indexAt,
  maxOf,
  meanOf,
  minOf,
  peakIndex,
  settledRow,
  variation,
  whileOn,
  type Run,
} from '../ride/trace-reading.ts';

/** Hits of a row before the ones that count as later: four, so from the fifth on. */
const LATER = 4;

const AGAINST_SAG = { plus: 'below sag', minus: 'above sag' } as const;

export const HIT_METRICS: readonly EndMetric[] = [
  {
    stem: 'travel-not-recovered',
    unit: 'mm',
    name: 'meets the next bump',
    about:
      'how deep below sag the {end} still is when the next bump of the row comes, on average of the later ones; minus = above it',
    worse: 'up',
    floor: 0.2,
    usual: 15,
    words: { up: 'deeper', down: 'higher' },
    fineBelowNought: true,
    sides: AGAINST_SAG,
    scenarios: ['row', 'edges'],
    read: (run, end) => mean(run.marks[end].slice(LATER).map((t) => depthAt(run, end, t))) * run.shown[end],
  },
  {
    stem: 'peak-force',
    unit: 'N',
    name: 'hardest push of a hit',
    about: 'how hard the {end} pushes on the frame at its worst; in a row, on average of the later hits',
    worse: 'up',
    floor: 5,
    usual: 300,
    words: { up: 'harder', down: 'softer' },
    scenarios: ['row', 'lone-hit', 'big-hit', 'square-edge', 'edges', 'landing', 'steep'],
    read(run, end) {
      const { force } = run.trace[end];
      const hits = run.marks[end];
      if (hits.length === 1) return maxOf(force, eventFrom(run, end), eventUntil(run, end));
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
    stem: 'ride-depth',
    unit: 'mm',
    name: 'rides on average',
    about: 'how deep in its travel the {end} rides on average, its sag included',
    worse: 'either',
    floor: 0.2,
    usual: 30,
    words: { up: 'deeper', down: 'higher' },
    scenarios: ['row', 'edges', 'chatter'],
    read: (run, end) => meanOf(run.trace[end].travel, ...settledRow(run, end)) * run.shown[end],
  },
  {
    stem: 'tyre-load-variation',
    unit: '%',
    name: 'tyre load variation',
    about: 'how much the load on the {end} tyre swings about its mean: less is more grip',
    worse: 'up',
    floor: 0.3,
    usual: 30,
    words: { up: 'more', down: 'less' },
    scenarios: ['row', 'edges', 'rollers', 'chatter'],
    read: (run, end) => 100 * variation(run.trace[end].tyre, ...settledRow(run, end)),
  },
  {
    stem: 'time-off-ground',
    unit: '%',
    name: 'time off the ground',
    about: 'share of the time the {end} tyre touches nothing',
    worse: 'up',
    floor: 0.3,
    usual: 8,
    words: { up: 'longer', down: 'shorter' },
    scenarios: ['row', 'rollers', 'chatter', 'lone-hit', 'square-edge'],
    read: (run, end) => 100 * airborne(run.trace[end], ...window(run, end)),
  },
  {
    stem: 'kick-velocity',
    unit: 'm/s',
    name: 'throws the rider up',
    about:
      'how fast bike and rider are still thrown up at the {end} when the {end} has come back to its sag; minus = they still sink',
    worse: 'up',
    floor: 0.01,
    usual: 0.5,
    words: { up: 'faster', down: 'slower' },
    sides: { plus: 'upward', minus: 'downward' },
    scenarios: ['lone-hit', 'big-hit', 'landing'],
    read(run, end) {
      const { travel, bodyRate } = run.trace[end];
      const last = eventUntil(run, end) - 1;
      const peak = peakIndex(travel, eventFrom(run, end), last);
      const back = whileOn(travel, [peak, last], { sign: 1, value: travel[0]! });
      // One that does not come back in time throws nobody: it counts as what it sinks at most.
      return back < last ? bodyRate[back]! : minOf(bodyRate, peak, back + 1);
    },
  },
  {
    stem: 'lightest',
    unit: '%',
    name: 'lightest moment',
    about:
      'what is left of the load on the {end} tyre at its lightest, once the {end} has been at its deepest; 0 = in the air',
    worse: 'down',
    floor: 0.5,
    usual: 60,
    words: { up: 'heavier', down: 'lighter' },
    scenarios: ['lone-hit', 'kerb'],
    read(run, end) {
      const { travel, tyre } = run.trace[end];
      const from = eventFrom(run, end);
      const deepest = peakIndex(travel, from, eventUntil(run, end));
      return (100 * minOf(tyre, deepest, eventUntil(run, end))) / tyre[0]!;
    },
  },
  {
    stem: 'travel-used',
    unit: '%',
    name: 'travel used',
    about: 'how much of its travel the {end} uses at most; 100 % = all of it',
    worse: 'either',
    floor: 0.2,
    usual: 40,
    words: { up: 'more', down: 'less' },
    scenarios: ['row', 'lone-hit', 'big-hit', 'square-edge', 'landing', 'lip', 'berm', 'rollers'],
    read: (run, end) =>
      100 *
      Math.min(1, run.used(end, maxOf(run.trace[end].travel, eventFrom(run, end), eventUntil(run, end)))),
  },
  {
    stem: 'bottoming',
    unit: 'N',
    name: 'push on the bumper',
    about: 'how hard the {end} hits its bottom-out bumper; 0 = never touches it',
    worse: 'up',
    floor: 15,
    usual: 400,
    words: { up: 'harder', down: 'softer' },
    scenarios: ['landing', 'lone-hit', 'big-hit', 'lip'],
    read(run, end) {
      const deepest = maxOf(run.trace[end].travel, eventFrom(run, end), eventUntil(run, end));
      const { from, stiffness } = run.bumper[end];
      return stiffness * Math.max(0, deepest - from) ** 3;
    },
  },
];

/** A lone hit: from its start until 0.4 s after it; a row or chatter: once it has built up. */
function window(run: Run, end: End): readonly [number, number] {
  if (run.marks[end].length > 1 || run.marks.lasts > 1) return settledRow(run, end);
  return [eventFrom(run, end), indexAt(run.trace, run.marks[end][0]! + run.marks.lasts + 0.4)];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, v) => sum + v, 0) / Math.max(1, values.length);
}
