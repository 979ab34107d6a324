/** Roads and the things that happen on them: heights, their slopes, and what the tables of a drive hold of them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GRAVITY } from '../../src/physics/bike/bike.ts';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { DRIVE, makeDrive, type Road } from '../../src/physics/ride/drive.ts';
import { COORDINATES, restState, STATE } from '../../src/physics/bike/equilibrium.ts';
import { defaultBike } from '../../src/physics/bike/from-sheet.ts';
import {
  bumps,
  drop,
  kerbDown,
  lip,
  ROUGHNESS,
  roughRoad,
  seeded,
  stone,
  stones,
} from '../../src/physics/ride/roads.ts';
import { simulate } from '../../src/physics/ride/simulate.ts';
import { KICKING, PACKING } from '../../src/physics/sweep.ts';

const ROADS: readonly (readonly [string, Road])[] = [
  ['a row of bumps', bumps(0.3, 3, 1.1, 0.05, 0.7)],
  ['a stone', stone(1, 0.06, 0.1, 0.37)],
  ['stones in a row', stones(1, 3, 1.3, 0.05, 0.1, 0.37)],
  ['a kerb', kerbDown(1, 0.13, 0.37)],
  ['a lip', lip(0.5, 0.4, 1.5, 0.4)],
];

describe.each(ROADS)('%s', (name, road) => {
  it('has a slope that is the derivative of its height, up and down', () => {
    let [up, down] = [0, 0];
    for (let x = 0; x < 4; x += 0.0137) {
      const h = 1e-7;
      const [a, b] = [road.height(x - h), road.height(x + h)];
      if (Math.abs(b - a) > 1e-3) continue; // the end of the lip
      expect(road.slope(x)).toBeCloseTo((b - a) / (2 * h), 3);
      if (road.slope(x) > 0.05) up++;
      if (road.slope(x) < -0.05) down++;
    }
    expect(up > 0 || name === 'a kerb').toBe(true);
    expect(down > 0 || name === 'a lip').toBe(true);
  });
});

it('are as high, as long and as many as they say', () => {
  const tops = (road: Road): number =>
    Math.max(...Array.from({ length: 5000 }, (_, i) => road.height(i / 1000)));
  expect(tops(bumps(0.3, 3, 1.1, 0.05, 0.7))).toBeCloseTo(0.05, 5);
  expect(tops(stones(1, 3, 1.3, 0.05, 0.1, 0.37))).toBeCloseTo(0.05, 5);
  const three = bumps(0.3, 3, 1.1, 0.05, 0.7);
  for (const n of [0, 1, 2]) expect(three.height(0.3 + 0.35 + 1.1 * n)).toBeCloseTo(0.05, 9);
  expect(three.height(0.3 + 0.35 + 3.3)).toBe(0);
  const edges = stones(1, 3, 1.3, 0.05, 0.1, 0.37);
  for (const n of [0, 1, 2]) expect(edges.height(1.05 + 1.3 * n)).toBeCloseTo(0.05, 9);
  expect(edges.height(1.05 + 3.9)).toBe(0);
  const lips = lip(0.5, 0.4, 1.5, 0.4);
  expect(lips.height(2.4)).toBeCloseTo(0.3 + 0.4 * 0.4, 9);
  expect(lips.height(2.41)).toBeLessThan(-10);
  expect(drop(0.02, 0.7).height(0)).toBe(0.7);
  expect(drop(0.02, 0.7).height(0.03)).toBe(0);
});

describe('what is read as numbers', () => {
  const rough = roughRoad({ roughness: ROUGHNESS.E, spacing: 1 / 16, from: 1 / 8, to: 3, seed: 5 });
  it.each([...ROADS, ['a drop', drop(0.9, 0.7)] as const, ['a rough road', rough] as const])(
    'lies under both wheels as its functions say: %s',
    (_, road) => {
      const { height, slope } = road;
      const parts = { seconds: 1.2, speed: 3.1, wheelbase: 1.23, step: 0.001 };
      const [own, called] = [makeDrive({ ...parts, road }), makeDrive({ ...parts, road: { height, slope } })];
      expect(called.table.some((x, i) => i % DRIVE.width === DRIVE.rear && x !== 0)).toBe(true);
      own.table.forEach((x, i) => expect(Math.abs(x - called.table[i]!)).toBeLessThan(1e-9));
    },
  );
  it('rises, swings and sets in over time as its formula says', () => {
    const eased = (s: number): number => (s <= 0 ? 0 : s >= 1 ? 1 : 3 * s ** 2 - 2 * s ** 3);
    const push = { level: 2, ramps: [[3, 0.2, 0.4]], beat: [0.7, 9], onset: 0.3 } as const;
    const { table } = makeDrive({ seconds: 1, wheelbase: 1, step: 0.001, push });
    for (let row = 0; row <= 2000; row += 50) {
      const t = row / 2000;
      const said = (2 + 3 * eased((t - 0.2) / 0.4) + 0.7 * Math.sin(9 * t)) * eased(t / 0.3);
      expect(table[row * DRIVE.width + DRIVE.push]).toBeCloseTo(said, 9);
    }
  });
});

describe('a drive', () => {
  const road = bumps(0.3, 1, 1, 0.05, 0.7);
  const read = (table: Float64Array, row: number, column: number): number =>
    table[row * DRIVE.width + column]!;

  it('brings the rear wheel the wheelbase later, or after a lag', () => {
    const plain = makeDrive({ seconds: 1, road, speed: 2, wheelbase: 1.2, step: 0.001 });
    const lagging = makeDrive({ seconds: 1, road, speed: 2, wheelbase: 1.2, lag: 0.3, step: 0.001 });
    // 0.65 m is the top: 0.325 s for the front; 0.6 s later by the wheelbase, 0.3 s by the lag. Half steps: 0.5 ms.
    expect(read(plain.table, 650, DRIVE.front)).toBeCloseTo(0.05, 9);
    expect(read(plain.table, 1850, DRIVE.rear)).toBeCloseTo(0.05, 9);
    expect(read(lagging.table, 1250, DRIVE.rear)).toBeCloseTo(0.05, 9);
  });

  it('holds the rate of the road, the grip that brakes ask, the chain and the push', () => {
    const d = makeDrive({
      seconds: 0.1,
      road,
      speed: 3,
      wheelbase: 1,
      step: 0.001,
      gravity: () => 20,
      braking: () => 5,
      chain: () => 2,
      push: () => 7,
    });
    expect(read(d.table, 110, DRIVE.frontRate)).toBeCloseTo(3 * road.slope(3 * 0.055), 12);
    expect([DRIVE.gravity, DRIVE.grip, DRIVE.chain, DRIVE.push].map((c) => read(d.table, 5, c))).toEqual([
      20, 0.25, 2, 7,
    ]);
    expect(d.perSpeed).toBeCloseTo(1 / 3, 12);
    expect(read(makeDrive({ seconds: 0, wheelbase: 1 }).table, 0, DRIVE.gravity)).toBe(GRAVITY);
  });
});

describe('at an instant', () => {
  const bike = defaultBike('enduro');
  const c = compileBike(bike);
  const at = (y: Float64Array, drive = makeDrive({ seconds: 0, wheelbase: 1 })) => simulate(c, drive, y);

  it('a tyre pressed in at 1 m/s pushes 15 % harder than at rest, and let out at 1 m/s as much less', () => {
    const y = restState(c);
    const rest = at(y).front.tyre[0]!;
    for (const rate of [-1, 1]) {
      const moving = y.slice();
      moving[COORDINATES + STATE.front] = rate;
      expect(at(moving).front.tyre[0]! / rest).toBeCloseTo(1 - 0.15 * rate, 9);
    }
  });

  it('legs push but never pull, and arms do both', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.2, max: 0.2, noNaN: true }), (lift) => {
        const y = restState(c);
        y[STATE.riderHeave]! += lift;
        const { hands } = at(y);
        const rider = bike.body.rider!;
        const rest = at(restState(c)).hands[0]!;
        expect(hands[0]!).toBeCloseTo(rest - rider.arms.stiffness * lift, 6);
      }),
    );
    const y = restState(c);
    y[STATE.riderHeave]! += 0.3;
    const step = 1e-6;
    const drive = makeDrive({ seconds: step, wheelbase: 1, step });
    const after = simulate(c, drive, y, 1).last;
    const rider = bike.body.rider!;
    // Feet off: the rider is held down by the arms alone.
    const arms = at(y).hands[0]!;
    expect(after[COORDINATES + STATE.riderHeave]! / step).toBeCloseTo(arms / rider.mass - GRAVITY, 2);
  });

  it('brakes press the fork in along its slope, and the rear by its anti-rise', () => {
    const drive = makeDrive({ seconds: 0, wheelbase: 1, braking: () => 4 });
    const y = restState(c);
    const [free, braked] = [at(y), at(y, drive)];
    for (const end of ['front', 'rear'] as const) {
      const pull = (free[end].tyre[0]! * 4) / GRAVITY;
      expect(free[end].force[0]! - braked[end].force[0]!).toBeCloseTo(
        pull * bike.ends[end].pulledIn.braking,
        6,
      );
    }
    // 64°: cot = 0.4877.
    expect(bike.ends.front.pulledIn.braking).toBeCloseTo(0.4877, 4);
  });
});

it('a row packs beyond a twentieth of the travel, a lone hit kicks beyond half of the sag', () => {
  // Judgements: 7.5 mm of 150 mm; 17 mm of a sag of 34 mm.
  expect(150 * PACKING).toBeCloseTo(7.5, 9);
  expect(34 * KICKING).toBeCloseTo(17, 9);
});

describe('a rough road of one wave', () => {
  it('has its height and slope everywhere on it, over more than one period', () => {
    const [spacing, frequency, seed] = [1 / 16, 2, 5];
    const road = roughRoad({ roughness: 4096e-6, spacing, from: frequency, to: frequency, seed });
    // Amplitude √(2·Gd(n)·Δn) with Gd(n) = Gd(n0)·(n/n0)^−2, n0 = 0.1 cycle/m; the first number drawn is its phase.
    const amplitude = Math.sqrt(2 * 4096e-6 * (0.1 / frequency) ** 2 * spacing);
    const phase = 2 * Math.PI * seeded(seed)();
    const rate = 2 * Math.PI * frequency;
    for (let x = -16; x <= 32; x += 0.37) {
      const angle = rate * x + phase;
      expect(Math.abs(road.height(x) - amplitude * Math.cos(angle)) / amplitude).toBeLessThan(0.002);
      expect(Math.abs(road.slope(x) + amplitude * rate * Math.sin(angle)) / (amplitude * rate)).toBeLessThan(
        0.002,
      );
    }
  });
});
