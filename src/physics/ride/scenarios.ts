/** The situations a bike is put through. */
import { GRAVITY } from '../bike/bike.ts';
import { makeDrive, type Road } from './drive.ts';
import { bumps, drop, lip, ROUGHNESS, roughRoad, stone, stones } from './roads.ts';
import { WHEEL_RADIUS } from '../defaults.ts';
import { edge, event, held, rowOf } from '../bike/stages.ts';
import { at, type Scenario } from './scenario.ts';

const ROW = { first: 0.3, count: 9, spacing: 1.1, height: 0.04, length: 0.7 } as const;
const LONE = { height: 0.09, length: 0.8 } as const;
const BIG = { height: 0.22, length: 1.2 } as const;
const EDGES = { first: 0.6, count: 6, spacing: 1.3, height: 0.05, length: 0.1 } as const;
const ROLLERS = { first: 0.3, count: 4, spacing: 3.2, height: 0.3, length: 3.2 } as const;
/** s: how long the bike is left to settle between its wheels after a hit. */
const APART = 0.7;
const BERM = { from: 0.2, loads: 0.3, until: 1.1, unloads: 0.2, extra: 1.1 * GRAVITY } as const;
const BRAKE = { from: 0.2, bites: 0.15, until: 1.2, off: 0.15, pull: 5 } as const;
/** Times, not lengths: a lip is built for the speed it is ridden at. */
const LIP = { slope: 0.42, curve: 0.45, straight: 0.14 } as const;
const STONE = { height: 0.06, length: 0.1 } as const;
const KERB = { height: 0.13 } as const;
const STEEP = { slope: 15, height: 0.13 } as const;
/** Standing, turns a minute; the bounce as a share of the weight; what the chain pulls, m/s²: a brisk climb. */
const PEDAL = { turns: 50, bounce: 0.25, pull: 1.5 } as const;

export const SCENARIOS: readonly Scenario[] = [
  {
    id: 'row',
    name: 'row of braking bumps',
    about: `${ROW.count} equal bumps, ${ROW.height * 1000} mm high, ${ROW.spacing} m apart`,
    speed: at(6, 7, 8),
    stage: (wheelbase, speed, step) =>
      rowOf(wheelbase, speed, bumps(ROW.first, ROW.count, ROW.spacing, ROW.height, ROW.length), ROW, step),
  },
  {
    id: 'lone-hit',
    name: 'single hit',
    about: `one bump, ${LONE.height * 1000} mm high and ${LONE.length} m long, one wheel after the other`,
    speed: at(6, 7, 7.5),
    stage: (wheelbase, speed, step) =>
      event(
        wheelbase,
        speed,
        APART,
        LONE.length,
        bumps(0.3, 1, LONE.length, LONE.height, LONE.length),
        0.3,
        step,
      ),
  },
  {
    id: 'big-hit',
    name: 'one hit that bottoms',
    about: `one bump, ${BIG.height * 1000} mm high and ${BIG.length} m long, one wheel after the other`,
    speed: at(6, 7, 8),
    stage: (wheelbase, speed, step) =>
      event(
        wheelbase,
        speed,
        APART,
        BIG.length,
        bumps(0.3, 1, BIG.length, BIG.height, BIG.length),
        0.3,
        step,
      ),
  },
  {
    id: 'square-edge',
    name: 'square edge',
    about: `a wheel rolling over a stone ${STONE.height * 1000} mm high with square edges`,
    speed: at(3.5, 4, 4.5),
    stage: (wheelbase, speed, step) =>
      event(
        wheelbase,
        speed,
        APART,
        STONE.length + 2 * WHEEL_RADIUS,
        stone(0.6, STONE.height, STONE.length, WHEEL_RADIUS),
        0.35,
        step,
      ),
  },
  {
    id: 'edges',
    name: 'square edges in a row',
    about: `${EDGES.count} stones with square edges, ${EDGES.height * 1000} mm high, ${EDGES.spacing} m apart`,
    speed: at(4, 4.5, 5),
    stage: (wheelbase, speed, step) =>
      rowOf(
        wheelbase,
        speed,
        stones(EDGES.first, EDGES.count, EDGES.spacing, EDGES.height, EDGES.length, WHEEL_RADIUS),
        // The wheel meets a stone its own radius earlier at the most; a quarter of a metre for this height.
        { ...EDGES, first: EDGES.first - 0.2, length: EDGES.length + 0.4 },
        step,
      ),
  },
  {
    id: 'landing',
    name: 'flat landing',
    about: 'both wheels land at once on flat ground',
    speed: at(0.6, 0.85, 1.2), // the height fallen, m; scaled like a speed
    stage(_wheelbase, height, step) {
      const from = 0.02;
      const fall = from + Math.sqrt((2 * height) / GRAVITY);
      return {
        drive: makeDrive({ seconds: fall + 1, road: drop(from, height), speed: 1, wheelbase: 0, step }),
        marks: { front: [fall], rear: [fall], lasts: 0.05, release: fall + 1 },
      };
    },
  },
  {
    id: 'lip',
    name: 'jump lip',
    about: 'a take-off that curves up, then runs straight long enough for the suspension to start back',
    speed: at(6.5, 7.5, 8.5),
    stage(wheelbase, speed, step) {
      const first = 0.3;
      const edge = first + (LIP.curve + LIP.straight) * speed;
      const road = lip(first, LIP.slope, LIP.curve * speed, LIP.straight * speed);
      const seconds = (edge + wheelbase) / speed + 0.3;
      return {
        drive: makeDrive({ seconds, road, speed, wheelbase, step }),
        marks: {
          front: [first / speed],
          rear: [(first + wheelbase) / speed],
          lasts: LIP.curve + LIP.straight,
          release: (edge + wheelbase) / speed,
        },
      };
    },
  },
  {
    id: 'berm',
    name: 'berm',
    about: 'pressed into a berm, held, and let go on the way out',
    speed: at(0.9, 1, 1.15), // how hard, as a share of the usual load
    stage: (wheelbase, hard, step) =>
      held(wheelbase, BERM.from, BERM.until, {
        seconds: 2,
        step,
        gravity: {
          level: GRAVITY,
          ramps: [
            [hard * BERM.extra, BERM.from, BERM.loads],
            [-hard * BERM.extra, BERM.until, BERM.unloads],
          ],
        },
      }),
  },
  {
    id: 'steep',
    name: 'steep ground',
    about: `a ${STEEP.slope}° slope at held speed, each wheel rolling off a ${STEEP.height * 1000} mm edge`,
    speed: at(3, 3.5, 4),
    stage(wheelbase, speed, step) {
      const slope = (STEEP.slope * Math.PI) / 180;
      return edge(wheelbase, speed, STEEP.height, step, {
        gravity: GRAVITY * Math.cos(slope),
        braking: GRAVITY * Math.sin(slope),
      });
    },
  },
  {
    id: 'rollers',
    name: 'rollers',
    about: `${ROLLERS.count} long waves, ${ROLLERS.height * 1000} mm high, ${ROLLERS.spacing} m apart, ridden without pumping`,
    speed: at(4.5, 5, 5.5),
    stage: (wheelbase, speed, step) =>
      rowOf(
        wheelbase,
        speed,
        bumps(ROLLERS.first, ROLLERS.count, ROLLERS.spacing, ROLLERS.height, ROLLERS.length),
        ROLLERS,
        step,
      ),
  },
  {
    id: 'chatter',
    name: 'chatter',
    about: 'a rough road of the fifth class of ISO 8608, waves from 0.3 m to 8 m',
    speed: at(5, 6, 7),
    stage(wheelbase, speed, step) {
      const seconds = 2;
      return {
        drive: makeDrive({ seconds, road: rough(), speed, wheelbase, start: wheelbase, step }),
        marks: { front: [0.2], rear: [0.2], lasts: seconds - 0.2, release: seconds },
      };
    },
  },
  {
    id: 'braking',
    name: 'hard braking on smooth ground',
    about: 'the brakes come on at half of gravity, hold, and come off',
    speed: at(0.9, 1, 1.1), // how hard, as a share of the usual pull
    stage: (wheelbase, hard, step) =>
      held(wheelbase, BRAKE.from, BRAKE.until, {
        seconds: 2,
        step,
        braking: {
          level: 0,
          ramps: [
            [hard * BRAKE.pull, BRAKE.from, BRAKE.bites],
            [-hard * BRAKE.pull, BRAKE.until, BRAKE.off],
          ],
        },
      }),
  },
  {
    id: 'kerb',
    name: 'rolling off a kerb',
    about: `standing, off a ${KERB.height * 1000} mm kerb in the car park, one wheel after the other`,
    speed: at(2, 2, 2),
    stage: (wheelbase, speed, step) => edge(wheelbase, speed, KERB.height, step, {}),
  },
  {
    id: 'pedalling',
    name: 'pedalling standing',
    about: `${PEDAL.turns} turns a minute uphill, the weight and the chain's pull coming and going twice a turn`,
    speed: at(1, 1, 1),
    stage(wheelbase, hard, step) {
      const rate = 2 * Math.PI * (PEDAL.turns / 30);
      const pull = hard * PEDAL.pull;
      return {
        drive: makeDrive({
          seconds: 2.5,
          step,
          wheelbase,
          push: { level: 0, beat: [hard * PEDAL.bounce * GRAVITY, rate] },
          chain: { level: pull, beat: [pull, rate], onset: 0.2 },
        }),
        marks: { front: [1], rear: [1], lasts: 1.5, release: 2.5 },
      };
    },
  },
];

let roughGround: Road | undefined;
/** One road for every bike and run, so that before and after meet the same stones. */
function rough(): Road {
  roughGround ??= roughRoad({
    roughness: ROUGHNESS.E,
    spacing: 1 / 16,
    from: 1 / 8,
    to: 1 / 0.3,
    seed: 8608,
  });
  return roughGround;
}
