/** Metrics of a movement drawn by hand, so that what each reads can be read off the drawing. */
import { expect, it } from 'vitest';
import { SWING_METRICS } from '../../src/physics/metrics/swing-metrics.ts';
import type { Run } from '../../src/physics/ride/trace-reading.ts';

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
      hands: column(none),
      bars: column(none),
      step: INTERVAL,
      last: new Float64Array(12),
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

it('dives to the deepest while it is loaded', () => {
  expect(read('dive-depth', dive)).toBeCloseTo(80, 6);
});

it('takes to sink until nine tenths of the way down, and to come back until nine tenths of the way up', () => {
  expect(read('sink-time', dive)).toBeCloseTo(0.45, 2);
  expect(read('time-to-recover', dive)).toBeCloseTo(0.36, 2);
});

/** 40 mm times a decaying sine about a sag of 30 mm, from 0.2 s on. */
const shape = (t: number): number => Math.exp(-5 * t) * Math.sin(20 * t);
const swings = drawn((t) => 0.03 + (t < 0.2 ? 0 : 0.04 * shape(t - 0.2)));
const FIRST = Math.atan(4) / 20; // where the shape is greatest

it('springs past its sag by the first swing back, in millimetres', () => {
  expect(read('overshoot', swings)).toBeCloseTo(-40 * shape(FIRST + Math.PI / 20), 2);
});

it('counts the swings beyond a twentieth of the first movement: each is e^(−π/4) of the one before', () => {
  // 0.456, 0.208, 0.095, 0.043 of the first: three.
  expect(read('bounces', swings)).toBe(3);
});

it('settles when it stays within a tenth of the first movement', () => {
  let last = 0;
  for (let t = 0; t < 1.8; t += 1e-4) if (Math.abs(shape(t)) > 0.1 * shape(FIRST)) last = t;
  expect(read('settle-time', swings)).toBeCloseTo(last, 2);
  expect(last).toBeGreaterThan(0.3);
});

it('reads a wheel only until the other one meets its own, where that comes later', () => {
  const late = { ...swings, marks: { ...swings.marks, rear: [0.3] } };
  // The front is on its way back by then, but has not come past its sag.
  expect(FIRST).toBeLessThan(0.1);
  expect(read('bounces', late)).toBe(0);
  // The rear's own event, later, has no other after it.
  const metric = SWING_METRICS.find((m) => m.stem === 'bounces')!;
  expect(metric.read({ ...swings, marks: { ...swings.marks, front: [0.1] } }, 'rear')).toBe(3);
});
