/** Metrics of a movement drawn by hand, so that what each reads can be read off the drawing. */
import { expect, it } from 'vitest';
import { SWING_METRICS } from '../../src/dynamics/swing-metrics.ts';
import type { Run } from '../../src/dynamics/trace-reading.ts';

const INTERVAL = 0.001;
const SAMPLES = 2001;

/** Travel in m over time in s, the same at both ends; held from 0.2 s and let go at 1 s. */
function drawn(travel: (t: number) => number): Run {
  const column = (f: (t: number) => number) =>
    Float64Array.from({ length: SAMPLES }, (_, i) => f(i * INTERVAL));
  const none = (): number => 0;
  const end = {
    travel: column(travel),
    rate: column(none),
    force: column(none),
    tyre: column(none),
    bodyRate: column(none),
  };
  return {
    trace: {
      interval: INTERVAL,
      samples: SAMPLES,
      front: end,
      rear: end,
      pitch: column(none),
      pitchRate: column(none),
      bars: column(none),
      step: INTERVAL,
      last: new Float64Array(8),
    },
    marks: { front: [0.2], rear: [0.2], lasts: 0.8, release: 1 },
    shown: { front: 1000, rear: 1000 },
    bumper: { front: { from: 1, stiffness: 0 }, rear: { from: 1, stiffness: 0 } },
    used: (_, wheel) => wheel,
  };
}
const read = (stem: string, run: Run): number =>
  SWING_METRICS.find((m) => m.stem === stem)!.read(run, 'front');

/** From 30 mm down to 80 mm in half a second from 0.2 s, and back up in 0.4 s from 1 s. */
const dive = drawn((t) =>
  t < 0.2 ? 0.03 : t < 0.7 ? 0.03 + (t - 0.2) * 0.1 : t < 1 ? 0.08 : t < 1.4 ? 0.08 - (t - 1) * 0.125 : 0.03,
);

it('dives from sag to the deepest while it is loaded', () => {
  expect(read('dive-depth', dive)).toBeCloseTo(50, 6);
});

it('takes to sink until nine tenths of the way down, and to come back until nine tenths of the way up', () => {
  expect(read('sink-time', dive)).toBeCloseTo(0.45, 2);
  expect(read('time-to-recover', dive)).toBeCloseTo(0.36, 2);
});

it('overshoots by what it springs past its sag, as a share of how deep it went', () => {
  const swings = drawn(
    (t) => 0.03 + (t < 0.2 ? 0 : 0.04 * Math.exp(-(t - 0.2) * 5) * Math.sin((t - 0.2) * 20)),
  );
  const depth = Math.exp(-5 * (Math.atan(4) / 20)) * Math.sin(Math.atan(4));
  const past = Math.exp(-5 * ((Math.atan(4) + Math.PI) / 20)) * Math.sin(Math.atan(4));
  expect(read('overshoot', swings)).toBeCloseTo((100 * past) / depth, 1);
});
