/**
 * One mass on a spring and damper, and on a shaken base: closed forms found in every vibration text (S. S. Rao,
 * Mechanical Vibrations; the formulas from memory, each value recomputed), and Rao's vehicle on a wavy road.
 */
import { describe, expect, it } from 'vitest';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { makeDrive } from '../../src/physics/ride/drive.ts';
import { restState } from '../../src/physics/bike/equilibrium.ts';
import { simulate } from '../../src/physics/ride/simulate.ts';
import { quarterCar } from '../support/linear-bike.ts';

const STEP = 5e-5; // s: short, because a tyre stiff enough to be no tyre at all shakes fast

/** A mass on one spring; its wheel is all but glued to the road. */
function massOnSpring(mass: number, spring: number, damping: number) {
  return compileBike(quarterCar(mass, { spring, damping, tyre: spring * 4000, unsprung: mass / 80 }));
}

/** Let go from 10 mm below rest: the deviations from rest over time, m. */
function release(zeta: number): { deviation: number[]; interval: number } {
  const mass = 40;
  const spring = 5000;
  const c = massOnSpring(mass, spring, 2 * zeta * Math.sqrt(mass * spring));
  const rest = restState(c);
  const start = rest.slice();
  start[0]! -= 0.01;
  const trace = simulate(c, makeDrive({ seconds: 2, wheelbase: 2, step: STEP }), start, 4);
  const sag = rest[2]! - rest[0]!;
  return { deviation: Array.from(trace.front.travel, (x) => sag - x), interval: trace.interval };
}

describe('a mass let go', () => {
  it.each([
    [0.1, 72.9248, 0.63148],
    [0.2, 52.6621, 1.28255],
    [0.3, 37.2326, 1.97597],
    [0.4, 25.3827, 2.74221],
    [0.5, 16.3034, 3.6276],
    [0.6, 9.478, 4.71239],
    [0.7, 4.5988, 6.15875],
    [0.8, 1.5165, 8.37758],
  ])('at damping ratio %f overshoots by %f %% and decays by %f a period', (zeta, overshoot, decrement) => {
    const { deviation } = release(zeta);
    const first = Math.max(...deviation);
    expect((100 * first) / 0.01).toBeCloseTo(overshoot, 1);
    const after = deviation.slice(deviation.indexOf(first));
    const trough = Math.min(...after);
    // Half a period on, the swing is smaller by half the decrement.
    expect(2 * Math.log(first / -trough)).toBeCloseTo(decrement, zeta < 0.7 ? 1 : 0);
  });
});

/** Steady swing of the mass ÷ swing of the road. */
function transmissibility(zeta: number, r: number): number {
  const mass = 40;
  const spring = 5000;
  const natural = Math.sqrt(spring / mass);
  const c = massOnSpring(mass, spring, 2 * zeta * Math.sqrt(mass * spring));
  const w = r * natural;
  const amplitude = 0.002;
  const road = {
    height: (x: number) => amplitude * Math.sin(w * x),
    slope: (x: number) => amplitude * w * Math.cos(w * x),
  };
  const settle = 9 / (zeta * natural);
  const seconds = settle + (4 * Math.PI) / w;
  const trace = simulate(c, makeDrive({ seconds, road, speed: 1, wheelbase: 0, step: STEP }), undefined, 4);
  let most = 0;
  for (let i = Math.round(settle / trace.interval); i < trace.samples; i++)
    most = Math.max(most, Math.abs(trace.front.bodyRate[i]!));
  return most / (amplitude * w);
}

describe('a mass on a shaken base', () => {
  it.each([
    [0.1, 5.09902, 0.35586],
    [0.2, 2.69258, 0.41246],
    [0.3, 1.94365, 0.48344],
    [0.5, Math.SQRT2, 0.62017],
    [0.8, 1.17925, 0.76433],
  ])('at damping ratio %f passes on %f at resonance and %f at twice that', (zeta, atOne, atTwo) => {
    expect(transmissibility(zeta, 1) / atOne).toBeCloseTo(1, 2);
    expect(transmissibility(zeta, 2) / atTwo).toBeCloseTo(1, 2);
  });

  it('passes on exactly what comes at √2 of its own frequency, whatever its damping', () => {
    for (const zeta of [0.1, 0.4, 0.8]) expect(transmissibility(zeta, Math.SQRT2)).toBeCloseTo(1, 2);
  });

  it('makes the vehicle of Rao swing 0.0550 m at 20 km/h and 0.0425 m at 100 km/h', () => {
    const mass = 1200;
    const spring = 400_000;
    const amplitude = 0.05;
    const c = massOnSpring(mass, spring, 2 * 0.5 * Math.sqrt(mass * spring));
    const w = (2 * Math.PI) / 6;
    const road = {
      height: (x: number) => amplitude * Math.sin(w * x),
      slope: (x: number) => amplitude * w * Math.cos(w * x),
    };
    const swing = (kilometresAnHour: number): number => {
      const speed = kilometresAnHour / 3.6;
      // Heavier gravity keeps a tyre that can only push on this road; a straight-line system does not mind.
      const drive = makeDrive({ seconds: 4, road, speed, wheelbase: 0, step: STEP, gravity: () => 300 });
      const trace = simulate(c, drive, undefined, 4);
      let most = 0;
      for (let i = Math.round(2.5 / trace.interval); i < trace.samples; i++)
        most = Math.max(most, Math.abs(trace.front.bodyRate[i]!));
      return most / (w * speed);
    };
    expect(swing(20)).toBeCloseTo(0.055, 3);
    expect(swing(100)).toBeCloseTo(0.0425, 3);
  });
});
