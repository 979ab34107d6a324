/**
 * The whole bike, with nothing left out, against the same equations written a second time (tests/support) and solved by
 * an independent adaptive integrator (odex 2.0.4: extrapolation after Hairer & Wanner).
 */
import { describe, expect, it } from 'vitest';
import { GRAVITY, type Bike } from '../../src/physics/bike/bike.ts';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { makeDrive } from '../../src/physics/ride/drive.ts';
import { COORDINATES, restState, STATE, staticLoads } from '../../src/physics/bike/equilibrium.ts';
import { defaultBike } from '../../src/physics/bike/from-sheet.ts';
import { bumps } from '../../src/physics/ride/roads.ts';
import { simulate } from '../../src/physics/ride/simulate.ts';
import { solveWithOdex } from '../support/odex.mjs';
import { endForce, referenceRates, restOf } from '../support/reference-bike.mjs';

const KINDS = ['trail', 'enduro', 'downhill'] as const;

function both(bike: Bike, seconds: number, gravity: (t: number) => number, braking: (t: number) => number) {
  const road = bumps(0.3, 4, 1.1, 0.05, 0.7);
  const speed = 7;
  const wheelbase = bike.body.toFront + bike.body.toRear;
  const c = compileBike(bike);
  const drive = makeDrive({ seconds, road, speed, wheelbase, gravity, braking });
  const start = restState(c, gravity(0), braking(0));
  const ours = simulate(c, drive, start).last;
  const times = Array.from({ length: 11 }, (_, i) => (i * seconds) / 10);
  const loads = staticLoads(bike.body);
  const rates = referenceRates(bike, loads, [...start], { ...road, speed, gravity, braking });
  const theirs = solveWithOdex(rates, [...start], times, 1e-10).at(-1)!;
  return { ours, theirs };
}

describe.each(KINDS)('a %s bike', (kind) => {
  const bike = defaultBike(kind);

  it('ends a row of bumps within 5 µm and 5 µrad, and 100 µm/s, of the independent solution', () => {
    const { ours, theirs } = both(
      bike,
      0.8,
      () => GRAVITY,
      () => 0,
    );
    for (let i = 0; i < 6; i++) expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThan(5e-6);
    for (let i = 6; i < 12; i++) expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThan(1e-4);
  });

  it('does so pressed into a berm and braking at the same time', () => {
    const press = (t: number): number => GRAVITY * (1 + 0.6 * Math.sin(4 * t) ** 2);
    const pull = (t: number): number => 3 * Math.sin(3 * t) ** 2;
    const { ours, theirs } = both(bike, 0.8, press, pull);
    for (let i = 0; i < 6; i++) expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThan(2e-6);
    for (let i = 6; i < 12; i++) expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThan(1e-4);
  });

  it('has forces from its tables within 0.05 N of the laws themselves, over all travel and every speed', () => {
    const c = compileBike(bike);
    const instant = makeDrive({ seconds: 0, wheelbase: 1 });
    const loads = staticLoads(bike.body);
    for (const end of ['front', 'rear'] as const) {
      const model = bike.ends[end];
      const rest = restOf(model, loads[end]);
      const wheel = STATE[end];
      for (let x = -0.05; x <= 1.05; x += 0.0137) {
        const travel = x * model.linkage.travel;
        for (const rate of [-6, -1.7, -0.31, -0.02, -0.001, 0, 0.0007, 0.013, 0.4, 2.3, 7]) {
          // The frame at its first height, level and still: travel and rate are the wheel's own.
          const y = new Float64Array(2 * COORDINATES);
          y[wheel] = travel;
          y[COORDINATES + wheel] = rate;
          const ours = simulate(c, instant, y)[end].force[0]!;
          expect(Math.abs(ours - endForce(model, travel, rate, rest))).toBeLessThan(0.05);
        }
      }
    }
  });
});
