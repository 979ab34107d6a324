import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GRAVITY, type Bike } from '../../src/physics/bike/bike.ts';
import { compileBike, type CompiledBike, type CompiledEnd } from '../../src/physics/ride/compile.ts';
import { makeDrive, type Drive } from '../../src/physics/ride/drive.ts';
import { restState } from '../../src/physics/bike/equilibrium.ts';
import { defaultBike } from '../../src/physics/bike/from-sheet.ts';
import { makeGround, runScenario } from '../../src/physics/metrics/measure.ts';
import { SCENARIO_IDS } from '../../src/physics/ride/scenario.ts';
import { simulate } from '../../src/physics/ride/simulate.ts';
import { readTable } from '../../src/physics/table.ts';
import { bitsOf } from '../support/bits.ts';
import { linearBike } from '../support/linear-bike.ts';

const KINDS = ['trail', 'enduro', 'downhill'] as const;

describe.each(KINDS)('a %s bike', (kind) => {
  const bike = defaultBike(kind);
  const compiled = compileBike(bike);

  it('standing still stays still', () => {
    const start = restState(compiled);
    const { last } = simulate(compiled, makeDrive({ seconds: 1, wheelbase: 1 }));
    for (let i = 0; i < 12; i++) expect(Math.abs(last[i]! - start[i]!)).toBeLessThan(1e-7);
  });

  it('held by its brakes stays where it rests under them', () => {
    const drive = makeDrive({ seconds: 1, wheelbase: 1, braking: () => 4 });
    const start = restState(compiled, GRAVITY, 4);
    const { last } = simulate(compiled, drive);
    for (let i = 0; i < 12; i++) expect(Math.abs(last[i]! - start[i]!)).toBeLessThan(1e-7);
  });

  it('tells the rise of frame and rider as one body by their shares of the mass', () => {
    const { frame, rider, mass } = bike.body;
    const state = restState(compiled);
    state[6] = 1; // the frame rises at 1 m/s, the rider at 3
    state[10] = 3;
    const { front, rear } = simulate(compiled, makeDrive({ seconds: 0.002, wheelbase: 1 }), state);
    const { bodyToFront, bodyToRear } = compiled;
    const rise =
      (bodyToRear * front.bodyRate[0]! + bodyToFront * rear.bodyRate[0]!) / (bodyToFront + bodyToRear);
    expect(rise).toBeCloseTo((frame.mass * 1 + rider!.mass * 3) / mass, 9);
  });

  it('gives the same bits for the same input, compiled anew', () => {
    for (const id of SCENARIO_IDS) {
      const once = runScenario(compiled, makeGround(bike), id).trace;
      const again = runScenario(compileBike(defaultBike(kind)), makeGround(bike), id).trace;
      expect(bitsOf(again)).toBe(bitsOf(once));
    }
  });

  it('never gains energy from nothing, however it is thrown onto flat ground', () => {
    const energy = makeEnergy(bike, compiled);
    const kick = fc.double({ min: -2, max: 2, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({
          up: fc.double({ min: 0, max: 0.3, noNaN: true }),
          heave: kick,
          pitch: kick,
          front: kick,
          rear: kick,
        }),
        ({ up, heave, pitch, front, rear }) => {
          let y = restState(compiled);
          for (const i of [0, 2, 3, 4]) y[i]! += up;
          y.set([heave, pitch, heave + front, heave + rear, heave, pitch], 6);
          const piece = makeDrive({ seconds: 0.005, wheelbase: 1, step: compiled.step });
          let before = energy(y);
          for (let i = 0; i < 200; i++) {
            y = simulate(compiled, piece, y).last;
            const after = energy(y);
            // A thousandth of a joule is what the potentials here are interpolated to.
            expect(after).toBeLessThan(before + 1e-3);
            before = after;
          }
        },
      ),
      { numRuns: 8 },
    );
  });
});

/** Energy in J of a state: motion, height, springs, tyres. Dampers, friction and the losses of rubber store none. */
function makeEnergy(bike: Bike, c: CompiledBike): (y: Float64Array) => number {
  const stored = (end: CompiledEnd) => {
    const from = -0.4;
    const step = 2e-5;
    const sums = new Float64Array(40_000);
    for (let i = 1; i < sums.length; i++)
      sums[i] =
        sums[i - 1]! +
        (step / 6) *
          (readTable(end.elastic, from + (i - 1) * step) +
            4 * readTable(end.elastic, from + (i - 0.5) * step) +
            readTable(end.elastic, from + i * step));
    return (x: number): number => {
      const at = (x - from) / step;
      const i = Math.floor(at);
      const t = at - i;
      const f0 = readTable(end.elastic, from + i * step);
      return sums[i]! + t * step * (f0 + (t / 2) * (readTable(end.elastic, from + (i + 1) * step) - f0));
    };
  };
  const springs = [stored(c.front), stored(c.rear)];
  const tyre = (end: CompiledEnd, wheel: number): number =>
    wheel < 0 ? 0.4 * end.tyreStiffness * (-wheel) ** 2.5 : 0;
  return (y) => {
    const { frame, rider } = bike.body;
    if (rider === undefined) throw new Error('no rider');
    const [mf, mr] = [c.front.unsprungMass, c.rear.unsprungMass];
    const motion =
      0.5 *
      (frame.mass * y[6]! ** 2 +
        frame.inertia * y[7]! ** 2 +
        mf * y[8]! ** 2 +
        mr * y[9]! ** 2 +
        rider.mass * y[10]! ** 2 +
        rider.inertia * y[11]! ** 2);
    const height = GRAVITY * (frame.mass * y[0]! + mf * y[2]! + mr * y[3]! + rider.mass * y[4]!);
    const springEnergy =
      springs[0]!(y[2]! - y[0]! - frame.toFront * y[1]!) + springs[1]!(y[3]! - y[0]! + frame.toRear * y[1]!);
    const squeeze = (onFrame: number, onRider: number): number =>
      y[0]! + onFrame * y[1]! - y[4]! - onRider * y[5]!;
    // Legs only push: let out, they store nothing.
    const legs = 0.5 * rider.legs.stiffness * Math.max(0, squeeze(frame.toFeet, rider.toFeet)) ** 2;
    const arms = 0.5 * rider.arms.stiffness * squeeze(frame.toBars, rider.toBars) ** 2;
    return motion + height + springEnergy + legs + arms + tyre(c.front, y[2]!) + tyre(c.rear, y[3]!);
  };
}

describe('without any damping', () => {
  const bike = linearBike({
    mass: 80,
    inertia: 14,
    toFront: 0.7,
    toRear: 0.5,
    front: { spring: 9000, tyre: 60_000, unsprung: 3 },
    rear: { spring: 12_000, tyre: 60_000, unsprung: 4 },
  });

  it('the energy after a hundred swings is what it was, to a millionth', () => {
    const c = compileBike(bike);
    const rest = restState(c);
    const y = rest.slice();
    y[0]! += 0.01;
    y[1]! += 0.005;
    const { last } = simulate(c, makeDrive({ seconds: 40, wheelbase: 1, step: 0.00025 }), y);
    const energy = (state: Float64Array): number => {
      const d = state.map((v, i) => v - rest[i]!);
      const front = d[2]! - d[0]! - 0.7 * d[1]!;
      const rear = d[3]! - d[0]! + 0.5 * d[1]!;
      return (
        40 * d[6]! ** 2 +
        7 * d[7]! ** 2 +
        1.5 * d[8]! ** 2 +
        2 * d[9]! ** 2 +
        4500 * front ** 2 +
        6000 * rear ** 2 +
        30_000 * (d[2]! ** 2 + d[3]! ** 2)
      );
    };
    // Runge–Kutta loses a little of the fastest motion each step.
    expect(energy(last) / energy(y)).toBeCloseTo(1, 5);
    expect(energy(last)).toBeLessThan(energy(y));
  });
});

describe('halving the step', () => {
  /** Largest difference of the end state between two step sizes. */
  function error(
    c: CompiledBike,
    drive: (step: number) => Drive,
    step: number,
    finest: Float64Array,
  ): number {
    const { last } = simulate(c, drive(step));
    return Math.max(...Array.from(last.slice(0, 6), (v, i) => Math.abs(v - finest[i]!)));
  }

  it('shrinks the error sixteenfold where everything is smooth: fourth order', () => {
    const end = { spring: 9000, damping: 400, tyre: 60_000, unsprung: 3 };
    const c = compileBike(
      linearBike({ mass: 80, inertia: 14, toFront: 0.7, toRear: 0.5, front: end, rear: end }),
    );
    const road = {
      height: (x: number) => 0.004 * Math.sin(3 * x),
      slope: (x: number) => 0.012 * Math.cos(3 * x),
    };
    const drive = (step: number): Drive =>
      makeDrive({ seconds: 0.512, road, speed: 6, wheelbase: 1.2, step });
    const finest = simulate(c, drive(0.00025)).last;
    const coarse = error(c, drive, 0.004, finest);
    const fine = error(c, drive, 0.002, finest);
    expect(coarse / fine).toBeGreaterThan(13);
    expect(coarse / fine).toBeLessThan(20);
  });

  it('shrinks the error of a real bike, opening stacks, stops, lift-off and all', () => {
    for (const kind of KINDS) {
      const bike = defaultBike(kind);
      const c = compileBike(bike);
      const road = {
        height: (x: number) => 0.03 * (1 - Math.cos(5 * x)),
        slope: (x: number) => 0.15 * Math.sin(5 * x),
      };
      const drive = (step: number): Drive =>
        makeDrive({ seconds: 0.8, road, speed: 7, wheelbase: 1.2, step });
      const finest = simulate(c, drive(0.0000625)).last;
      expect(error(c, drive, 0.001, finest) / error(c, drive, 0.00025, finest)).toBeGreaterThan(3);
      expect(error(c, drive, 0.0005, finest)).toBeLessThan(2e-6);
    }
  });
});

describe('a wheel in the air', () => {
  it('is not pulled down by its tyre: the whole bike falls as one, but for its springs letting go', () => {
    const bike = defaultBike('enduro');
    const c = compileBike(bike);
    const y = restState(c);
    for (const i of [0, 2, 3, 4]) y[i]! += 5;
    const { last, front, rear } = simulate(c, makeDrive({ seconds: 0.5, wheelbase: 1 }), y);
    expect(Math.max(...front.tyre, ...rear.tyre)).toBe(0);
    const total = bike.body.mass + c.front.unsprungMass + c.rear.unsprungMass;
    const { frame, rider } = bike.body;
    const momentum =
      frame.mass * last[6]! +
      rider!.mass * last[10]! +
      c.front.unsprungMass * last[8]! +
      c.rear.unsprungMass * last[9]!;
    expect(momentum / total).toBeCloseTo(-GRAVITY * 0.5, 8);
  });
});
