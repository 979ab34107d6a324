/** Metrics of the whole bike, and of the ground, on a record drawn by hand. */
import { expect, it } from 'vitest';
import { BIKE_METRICS } from '../../src/physics/metrics/bike-metrics.ts';
import { airborne, type Run } from '../../src/physics/ride/trace-reading.ts';

const column = (...values: number[]): Float64Array => Float64Array.from(values);

it('says how far the nose drops from where it stood, up to the end of the braking', () => {
  const run = {
    trace: { interval: 1, samples: 5, pitch: column(0.01, 0, -0.02, 0, -0.5) },
    marks: { front: [0], rear: [0], lasts: 3, release: 4 },
  } as unknown as Run;
  const drop = BIKE_METRICS.find((m) => m.scenarios.includes('braking'))!.read(run);
  expect(drop).toBeCloseTo((0.03 * 180) / Math.PI, 12);
});

it('counts as in the air what carries nothing', () => {
  const end = { tyre: column(5, 0, 3, 0, 0, 9) } as Parameters<typeof airborne>[0];
  expect(airborne(end, 0, 6)).toBe(0.5);
  expect(airborne(end, 1, 5)).toBe(0.75);
  expect(airborne(end, 2, 3)).toBe(0);
});
