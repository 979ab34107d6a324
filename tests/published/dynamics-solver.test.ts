/**
 * The whole bike, with nothing left out, against the same equations written a second time (tests/support) and solved by
 * an independent adaptive integrator (odex 2.0.4: extrapolation after Hairer & Wanner).
 */
import { describe, expect, it } from 'vitest';
import { GRAVITY, type Bike } from '../../src/dynamics/bike.ts';
import { compileBike } from '../../src/dynamics/compile.ts';
import { makeDrive } from '../../src/dynamics/drive.ts';
import { restState } from '../../src/dynamics/equilibrium.ts';
import { defaultBike } from '../../src/dynamics/from-sheet.ts';
import { suspensionForce } from '../../src/dynamics/motion.ts';
import { bumps } from '../../src/dynamics/roads.ts';
import { simulate } from '../../src/dynamics/simulate.ts';
import { solveWithOdex } from '../support/odex.mjs';
import { endForce, referenceRates } from '../support/reference-bike.mjs';

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
  const rates = referenceRates(bike, { ...road, speed, gravity, braking });
  const theirs = solveWithOdex(rates, [...start], times, 1e-10).at(-1)!;
  return { ours, theirs };
}

describe.each(KINDS)('a %s bike', (kind) => {
  const bike = defaultBike(kind);

  it('ends a row of bumps within 1 µm and 1 µrad, and 10 µm/s, of the independent solution', () => {
    const { ours, theirs } = both(
      bike,
      0.8,
      () => GRAVITY,
      () => 0,
    );
    for (let i = 0; i < 4; i++) expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThan(1e-6);
    for (let i = 4; i < 8; i++) expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThan(1e-5);
  });

  it('does so pressed into a berm and braking at the same time', () => {
    const press = (t: number): number => GRAVITY * (1 + 0.6 * Math.sin(4 * t) ** 2);
    const pull = (t: number): number => 3 * Math.sin(3 * t) ** 2;
    const { ours, theirs } = both(bike, 0.8, press, pull);
    for (let i = 0; i < 4; i++) expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThan(1e-6);
    for (let i = 4; i < 8; i++) expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThan(1e-5);
  });

  it('has forces from its tables within 0.02 N of the laws themselves, over all travel and every speed', () => {
    for (const end of ['front', 'rear'] as const) {
      const model = bike.ends[end];
      const compiled = compileBike(bike)[end];
      for (let x = -0.05; x <= 1.05; x += 0.0137) {
        const travel = x * model.linkage.travel;
        for (const rate of [-6, -1.7, -0.31, -0.02, -0.001, 0, 0.0007, 0.013, 0.4, 2.3, 7]) {
          const exact = endForce(model, travel, rate);
          expect(Math.abs(suspensionForce(compiled, travel, rate) - exact)).toBeLessThan(0.02);
        }
      }
    }
  });
});
