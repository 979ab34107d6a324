/** Metrics of the bike as a whole: its pitch, its balance, the rider's hands. */
import type { Metric } from './metric.ts';
import { indexAt, meanOf, minOf, type Run } from './trace-reading.ts';
import { weightedVibration } from './vibration.ts';

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
    name: 'turn in the air',
    about: 'how fast the bike turns nose-down (+) or nose-up (−) once both wheels have left the lip',
    worse: 'up',
    floor: 0.3,
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

/** The 0.3 s from when a berm lets go. */
function exit(run: Run): [number, number] {
  return [indexAt(run.trace, run.marks.release), indexAt(run.trace, run.marks.release + 0.3)];
}
