/**
 * Roads of ISO 8608, and what a quarter-car does on them in closed form for a road whose speed is white noise:
 * one-sided Sv = 4π²·Gd(n0)·n0²·V (formulas from memory, e.g. Zuo & Zhang, J. Vib. Acoust. 135, 2013, for the power;
 * each checked elsewhere against a Lyapunov solution). The road here ends at 20 cycle/m, so about a percent is missing.
 */
import { describe, expect, it } from 'vitest';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { makeDrive } from '../../src/physics/ride/drive.ts';
import { ROUGHNESS, roughRoad } from '../../src/physics/ride/roads.ts';
import { simulate } from '../../src/physics/ride/simulate.ts';
import { quarterCar } from '../support/linear-bike.ts';

describe('ISO 8608 (code tables that quote it)', () => {
  it.each([
    ['B', 32e-6, 64e-6, 128e-6],
    ['C', 128e-6, 256e-6, 512e-6],
    ['D', 512e-6, 1024e-6, 2048e-6],
    ['E', 2048e-6, 4096e-6, 8192e-6],
    ['F', 8192e-6, 16_384e-6, 32_768e-6],
    ['G', 32_768e-6, 65_536e-6, 131_072e-6],
  ] as const)(
    'class %s has its mean, between %f and %f and %f m³, at the middle of its limits',
    (name, lower, mean, upper) => {
      expect(ROUGHNESS[name]).toBeCloseTo(mean, 12);
      expect(Math.sqrt(lower * upper)).toBeCloseTo(ROUGHNESS[name], 12);
    },
  );

  it.each([
    ['A', 3.806],
    ['E', 60.903],
  ] as const)('class %s between 0.011 and 2.83 cycle/m is %f mm rms', (name, rms) => {
    // Harmonics stand for half a spacing either way: 28 · 0.0004 begins at 0.011 cycle/m, 7074 · 0.0004 ends at 2.83.
    const spacing = 0.0004;
    const parts = { roughness: ROUGHNESS[name], spacing, from: 28 * spacing, to: 7074 * spacing, seed: 1 };
    const { height } = roughRoad(parts, 0.125);
    expect(1000 * rootMeanSquare(height, 2500, 20_000)).toBeCloseTo(rms, 2);
  });

  it('gives 11.47008 mm over 250 m for k = 3 and 2500 harmonics, whatever the phases (Agostinacchio et al. 2014)', () => {
    for (const seed of [1, 2]) {
      const { height } = roughRoad(
        { roughness: 32e-6, spacing: 1 / 250, from: 1 / 250, to: 10, seed },
        0.025,
      );
      expect(1000 * rootMeanSquare(height, 250, 10_000)).toBeCloseTo(11.47008, 4);
    }
  });
});

function rootMeanSquare(height: (x: number) => number, period: number, points: number): number {
  let sum = 0;
  for (let i = 0; i < points; i++) sum += height((i * period) / points) ** 2;
  return Math.sqrt(sum / points);
}

interface Vehicle {
  readonly mass: number;
  readonly wheel: number;
  readonly spring: number;
  readonly damping: number;
  readonly tyre: number;
  readonly roughness: number;
  readonly speed: number;
}

/** Mean damper power in W, mean-square travel in m², mean-square body acceleration in m²/s⁴ over one period of road. */
function ride(v: Vehicle, seed: number): { power: number; travel: number; acceleration: number } {
  // A tyre that can only push must not leave the road: a gentler road, and the results scaled back.
  const gentle = 1 / 400;
  const period = 100;
  const road = roughRoad(
    { roughness: v.roughness * gentle, spacing: 1 / period, from: 1 / period, to: 20, seed },
    0.0025,
  );
  const seconds = period / v.speed;
  const settle = 12;
  const c = compileBike(
    quarterCar(v.mass, { spring: v.spring, damping: v.damping, tyre: v.tyre, unsprung: v.wheel }),
  );
  const trace = simulate(c, makeDrive({ seconds: settle + seconds, road, speed: v.speed, wheelbase: 0 }));
  const from = Math.round(settle / trace.interval);
  let mean = 0;
  for (let i = from; i < trace.samples - 1; i++) mean += trace.front.travel[i]!;
  const n = trace.samples - 1 - from;
  mean /= n;
  let rate = 0;
  let travel = 0;
  for (let i = from; i < trace.samples - 1; i++) {
    rate += trace.front.rate[i]! ** 2;
    travel += (trace.front.travel[i]! - mean) ** 2;
  }
  let acceleration = 0;
  const first = Math.round(settle / trace.step);
  for (let i = first; i < trace.bars.length - 1; i++) acceleration += trace.bars[i]! ** 2;
  acceleration /= trace.bars.length - 1 - first;
  return {
    power: (v.damping * rate) / n / gentle,
    travel: travel / n / gentle,
    acceleration: acceleration / gentle,
  };
}

const CAR = { mass: 317.5, wheel: 45.4, spring: 22_000, tyre: 192_000, roughness: 256e-6, speed: 20 };

describe('a straight-line vehicle on a rough road', () => {
  it('loses π²·Gr·Kt·V in its damper: 97.02 W for the car, whatever its damping', () => {
    expect(Math.abs(ride({ ...CAR, damping: 1500 }, 3).power / 97.022159 - 1)).toBeLessThan(0.01);
    expect(Math.abs(ride({ ...CAR, damping: 3000 }, 3).power / 97.022159 - 1)).toBeLessThan(0.01);
  });

  it('moves its suspension by (Sv/4)(Ms+Mu)/c and shakes its body as the closed form says', () => {
    const soft = ride({ ...CAR, damping: 1500 }, 4);
    expect(Math.abs(soft.travel / 1.2225466e-4 - 1)).toBeLessThan(0.01);
    expect(Math.abs(Math.sqrt(soft.acceleration) / 1.4250167 - 1)).toBeLessThan(0.01);
    const firm = ride({ ...CAR, damping: 3000 }, 4);
    expect(Math.abs(firm.travel / 6.1127329e-5 - 1)).toBeLessThan(0.01);
    expect(Math.abs(Math.sqrt(firm.acceleration) / 1.7835008 - 1)).toBeLessThan(0.01);
  });

  it('does so with the weights of a bicycle too: 194.04 W, 4.6355e-4 m², 43.626 m²/s⁴', () => {
    const light = ride(
      { mass: 40, wheel: 3, spring: 5000, damping: 300, tyre: 60_000, roughness: 4096e-6, speed: 8 },
      5,
    );
    expect(Math.abs(light.power / 194.044318 - 1)).toBeLessThan(0.02);
    expect(Math.abs(light.travel / 4.6355032e-4 - 1)).toBeLessThan(0.02);
    expect(Math.abs(light.acceleration / 43.626283 - 1)).toBeLessThan(0.02);
  });
});
