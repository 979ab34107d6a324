/** Metrics of the bike as a whole: its pitch, its balance, the rider's hands. */
import type { Metric } from './metric.ts';
import { indexAt, leastTogether, meanOf, minOf, sumOfSquares, type Run } from '../ride/trace-reading.ts';
import { weightedVibration } from '../ride/vibration.ts';

const DEGREES = 180 / Math.PI;

export const BIKE_METRICS: readonly Metric[] = [
  {
    id: 'pitch-at-exit',
    unit: '°',
    name: 'nose leaving the berm',
    about:
      'how far the nose rises (+) or drops (−) against standing still, on average over 0.3 s from letting go',
    worse: 'either',
    floor: 0.02,
    usual: 1,
    words: { up: 'further up', down: 'further down' },
    sides: { plus: 'up', minus: 'down' },
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
    usual: 15,
    words: { up: 'more', down: 'less' },
    scenarios: ['berm'],
    read(run) {
      const front = run.trace.front.tyre;
      const rear = run.trace.rear.tyre;
      const from = indexAt(run.trace, run.marks.release);
      const lightest = leastTogether(front, rear, from, indexAt(run.trace, run.marks.release + 0.6));
      const half = indexAt(run.trace, 0.075);
      const onFront = meanOf(front, lightest - half, lightest + half);
      return (100 * onFront) / (onFront + meanOf(rear, lightest - half, lightest + half));
    },
  },
  {
    id: 'pitch-rate-at-lip',
    unit: '°/s',
    name: 'turn in the air',
    about: 'how fast the bike turns nose-down (+) or nose-up (−) once both wheels have left the lip',
    worse: 'up',
    floor: 0.3,
    usual: 20,
    words: { up: 'more nose-down', down: 'less nose-down' },
    sides: { plus: 'nose-down', minus: 'nose-up' },
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
    usual: 2,
    words: { up: 'more', down: 'less' },
    scenarios: ['braking'],
    read: (run) =>
      (run.trace.pitch[0]! - minOf(run.trace.pitch, 0, indexAt(run.trace, run.marks.release))) * DEGREES,
  },
  {
    id: 'bar-vibration',
    unit: 'm/s²',
    name: 'vibration at the hands',
    about: 'root mean square at the bars, weighted as ISO 5349-1 does; for comparing',
    worse: 'up',
    floor: 0.02,
    usual: 5,
    words: { up: 'more', down: 'less' },
    scenarios: ['row', 'edges', 'chatter'],
    read: (run) => weightedVibration(run.trace.bars, run.trace.step),
  },
  {
    id: 'hand-force',
    unit: 'N',
    name: 'force at the hands',
    about: 'root mean square of what the bars push and pull at both hands together: what tires arms and grip',
    worse: 'up',
    floor: 1,
    usual: 60,
    words: { up: 'more', down: 'less' },
    scenarios: ['row', 'edges', 'chatter', 'braking'],
    read(run) {
      const { hands } = run.trace;
      const until = Math.min(run.trace.samples, indexAt(run.trace, run.marks.release) + 1);
      return Math.sqrt(sumOfSquares(hands, 0, until) / until);
    },
  },
];

/** The 0.3 s from when a berm lets go. */
function exit(run: Run): [number, number] {
  return [indexAt(run.trace, run.marks.release), indexAt(run.trace, run.marks.release + 0.3)];
}
