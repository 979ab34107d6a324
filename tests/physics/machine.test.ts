/** The loops in machine code and the same loops in TypeScript give the same bits. */
import fc from 'fast-check';
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { defaultBike } from '../../src/physics/index.ts';
import { plausibleBikes } from '../../src/physics/draws.ts';
import { isCompiled, withoutMachine } from '../../src/physics/machine/machine.ts';
import { makeGround, measure } from '../../src/physics/metrics/measure.ts';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { makeDrive, type DriveParts } from '../../src/physics/ride/drive.ts';
import { bumps, kerbDown, lip, roughRoad, stones } from '../../src/physics/ride/roads.ts';
import { SCENARIO_IDS } from '../../src/physics/ride/scenario.ts';
import { simulate } from '../../src/physics/ride/simulate.ts';
import {
  lastBeyond,
  leastTogether,
  maxOf,
  meanOf,
  minOf,
  peakIndex,
  sumOfSquares,
  swingsThrough,
  variation,
  whileOn,
} from '../../src/physics/ride/trace-reading.ts';
import { weightedVibration } from '../../src/physics/ride/vibration.ts';
import type { Bike, EndModel } from '../../src/physics/bike/bike.ts';
import type { DamperCircuit } from '../../src/physics/bike/damper.ts';

const installed = existsSync(new URL('../../node_modules/assemblyscript', import.meta.url));

it.runIf(installed && process.env['EARSHOT_TESTS_FROM'] !== 'src')(
  'is in the built program, where its compiler is installed',
  () => {
    expect(isCompiled()).toBe(true);
    expect(withoutMachine(isCompiled)).toBe(false);
    expect(isCompiled()).toBe(true);
  },
);

/** What a piece of work gives in machine code, and in TypeScript; it must make all anew, for nothing kept may serve both. */
function both<T>(work: () => T): readonly [T, T] {
  return [work(), withoutMachine(work)];
}

describe.runIf(isCompiled())('in machine code as in TypeScript', () => {
  const rough = (): DriveParts['road'] =>
    roughRoad({ roughness: 4096e-6, spacing: 1 / 16, from: 1 / 8, to: 1 / 0.3, seed: 5 });
  const drives: readonly (readonly [string, () => DriveParts])[] = [
    ['bumps', () => ({ seconds: 1.5, wheelbase: 1.2, road: bumps(0.3, 4, 1.1, 0.04, 0.7), speed: 6 })],
    [
      'stones',
      () => ({ seconds: 1.5, wheelbase: 1.2, road: stones(0.6, 3, 1.3, 0.05, 0.1, 0.36), speed: 5 }),
    ],
    ['a kerb', () => ({ seconds: 1, wheelbase: 1.2, lag: 0.4, road: kerbDown(0.2, 0.13, 0.36), speed: 2 })],
    ['a lip', () => ({ seconds: 1, wheelbase: 1.2, road: lip(0.3, 0.4, 3, 1), speed: 7 })],
    [
      'a rough road, from behind its start',
      () => ({ seconds: 1, wheelbase: 1.2, start: -3, road: rough()!, speed: 6 }),
    ],
    ['a rough road, standing', () => ({ seconds: 0.1, wheelbase: 1.2, start: 1, road: rough()!, speed: 0 })],
    [
      'loads that come and go',
      () => ({
        seconds: 2,
        wheelbase: 1.2,
        gravity: {
          level: 9.8,
          ramps: [
            [5, 0.2, 0.3],
            [-5, 1.1, 0.2],
          ],
        },
        braking: { level: 0, ramps: [[4, 0.0004, 0.15]] },
        chain: { level: 1.5, beat: [1.5, 10], onset: 0.2 },
        push: { level: 0, beat: [2.4, 10] },
      }),
    ],
  ];

  it.each(drives)('a drive: %s', (_name, parts) => {
    for (const step of [0.001, 0.00025]) {
      const [here, there] = both(() => makeDrive({ ...parts(), step }));
      expect(here).toEqual(there);
    }
  });

  const withEnds = (change: Partial<EndModel>): Bike => {
    const bike = defaultBike('trail');
    const end = (part: EndModel): EndModel => ({ ...part, ...change });
    return { ...bike, ends: { front: end(bike.ends.front), rear: end(bike.ends.rear) } };
  };

  it('the table of a damper, whatever its circuits and friction', () => {
    const positive = (most: number): fc.Arbitrary<number> => fc.double({ min: 1e-6, max: most, noNaN: true });
    const circuit: fc.Arbitrary<DamperCircuit> = fc.record({
      orifice: fc.oneof(fc.constantFrom(0, Infinity), positive(0.1)),
      stack: fc.oneof(fc.constantFrom(0, Infinity), positive(1e-3)),
      preload: fc.oneof(fc.constant(0), positive(500)),
    });
    const friction = fc.record({
      coulomb: fc.oneof(fc.constant(0), positive(200)),
      blend: positive(0.1),
      viscous: fc.oneof(fc.constant(0), positive(100)),
    });
    fc.assert(
      fc.property(circuit, circuit, friction, (compression, rebound, friction) => {
        const [here, there] = both(() => compileBike(withEnds({ compression, rebound, friction })).front);
        expect(here).toEqual(there);
      }),
      { numRuns: 40 },
    );
  });

  it('the table of a spring, air or coil, with and without a curve in the linkage', () => {
    const coil = { kind: 'coil', rate: 80_000, preload: 0.002, pitch: 0.001 } as const;
    for (const kind of ['trail', 'downhill'] as const)
      for (const end of ['front', 'rear'] as const)
        for (const spring of ['own', 'coil'] as const) {
          const [here, there] = both(() => {
            const bike = defaultBike(kind);
            // A copy, because tables are kept by the spring.
            const of = (part: EndModel): EndModel => ({
              ...part,
              spring: spring === 'own' ? { ...part.spring } : { ...coil },
            });
            const ends = { front: of(bike.ends.front), rear: of(bike.ends.rear) };
            return compileBike({ ...bike, ends })[end].elastic;
          });
          expect(here).toEqual(there);
        }
  });

  it('a run, on tyres of either shape, with a stiff rider, and at every sample', () => {
    for (const shape of ['hertz', 'linear'] as const) {
      const { tyre } = defaultBike('trail').ends.front;
      const bike = (): Bike => withEnds({ tyre: { ...tyre, shape } });
      const drive = makeDrive({
        seconds: 0.5,
        wheelbase: 1.2,
        road: bumps(0.1, 3, 0.8, 0.12, 0.6),
        speed: 6,
      });
      for (const every of [1, 3])
        for (const stiff of [false, true]) {
          const [here, there] = both(() => {
            const { body, ...parts } = bike();
            const taken = { ...parts, body: stiff ? { ...body, rider: undefined } : body };
            return simulate(compileBike(taken), drive, undefined, every);
          });
          expect(here).toEqual(there);
        }
    }
  });

  it('what is read off a channel, and off no samples of it', () => {
    const channel = (seed: number): Float64Array =>
      Float64Array.from({ length: 300 }, (_, i) => Math.sin(seed * i * i) + i / 400);
    const [a, b] = [channel(1), channel(2)];
    for (const [from, to] of [
      [0, 300],
      [20, 140],
      [7, 7],
    ] as const) {
      const [here, there] = both(() => [
        meanOf(a, from, to),
        maxOf(a, from, to),
        minOf(a, from, to),
        sumOfSquares(a, from, to),
        variation(a, from, to),
        peakIndex(a, from, to),
        leastTogether(a, b, from, to),
        whileOn(a, [from, to], { sign: 1, value: -0.5 }),
        whileOn(a, [from, to], { sign: -1, value: 0.9 }, false),
        lastBeyond(a, from, to, 0.2, 0.9),
        swingsThrough(a, from, to, 0.2, 0.1),
      ]);
      expect(here).toEqual(there);
    }
  });

  it('a trace that stays where the loops run, whatever is read off it before', () => {
    const compiled = compileBike(defaultBike('trail'));
    const drive = makeDrive({ seconds: 1.5, wheelbase: 1.2, road: bumps(0.1, 3, 0.8, 0.12, 0.6), speed: 6 });
    const copied = simulate(compiled, drive);
    const held = simulate(compiled, drive, undefined, undefined, true);
    expect(weightedVibration(held.bars, held.step)).toBe(weightedVibration(copied.bars, copied.step));
    expect(maxOf(held.rear.travel, 0, held.samples)).toBe(maxOf(copied.rear.travel, 0, copied.samples));
    expect(leastTogether(held.front.tyre, held.rear.tyre, 0, held.samples)).toBe(
      leastTogether(copied.front.tyre, copied.rear.tyre, 0, copied.samples),
    );
    for (const column of ['pitch', 'pitchRate', 'hands', 'bars', 'last'] as const)
      expect(held[column]).toEqual(copied[column]);
    for (const column of ['travel', 'rate', 'force', 'tyre', 'bodyRate'] as const)
      expect(held.front[column]).toEqual(copied.front[column]);
  });

  it('vibration at the hands', () => {
    for (const length of [1, 2, 300, 2000])
      for (const step of [0.001, 0.0005]) {
        const record = Float64Array.from({ length }, (_, i) => Math.sin(i * i));
        const [here, there] = both(() => weightedVibration(record, step));
        expect(here).toBe(there);
      }
  });

  it('every metric of bikes of all kinds', () => {
    const [here, there] = both(() =>
      plausibleBikes(3, 11).map(({ bike, pace }) => measure(bike, makeGround(bike, pace), SCENARIO_IDS)),
    );
    expect(here).toEqual(there);
  });
});
