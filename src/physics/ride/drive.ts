/** What happens to the bike during a run, as tables over time: the road under each wheel, gravity, braking. */
import { GRAVITY } from '../bike/bike.ts';
import * as ROWS from '../machine/loops/rows.ts';
import { machine } from '../machine/machine.ts';
import type { PiecedRoad, Road, TabledRoad } from './pieces.ts';

export interface Drive {
  /** step of the integrator, s, and how many */
  readonly step: number;
  readonly steps: number;
  /** a row of `DRIVE.width` numbers for every half step: 2·steps + 1 rows */
  readonly table: Float64Array;
  /** s/m: 1 ÷ speed along the road, so that a rate of the road gives its slope; 0 standing */
  readonly perSpeed: number;
}

/**
 * 1 ms. The fastest motion of the bike is a wheel between tyre and bumper, up to about 120 Hz; dampers with a steep curve
 * ask for less (see `stepFor`). Half of it moves no metric by more than a fifth of what a rider can feel.
 */
export const STEP = 0.001;

export type { Road } from './pieces.ts';

/** Where things stand in a row. */
export const DRIVE = {
  /** road under the wheels, m, and its rates, m/s */
  front: ROWS.FRONT,
  frontRate: ROWS.FRONT_RATE,
  rear: ROWS.REAR,
  rearRate: ROWS.REAR_RATE,
  /** square to the ground, m/s² */
  gravity: ROWS.GRAVITY,
  /** what the brakes hold, as a share of the load on each tyre */
  grip: ROWS.GRIP,
  /** what the chain pulls the bike forward with, m/s² */
  chain: ROWS.CHAIN,
  /** what the rider's legs push beyond standing, m/s² of the rider's mass */
  push: ROWS.PUSH,
  width: ROWS.ROW,
} as const;

/** A load over time as numbers: a level, and what rises or falls smoothly from a time on and then stays, times in s. */
export interface Course {
  readonly level: number;
  readonly ramps?: readonly (readonly [by: number, from: number, lasts: number])[];
  /** what swings about that, and how fast, rad/s */
  readonly beat?: readonly [by: number, rate: number];
  /** s over which all of it sets in */
  readonly onset?: number;
}

/*
 * What a scenario hands in as a function cannot be called from machine code, so only what has no other form is one.
 */
export type Load = number | Course | ((time: number) => number);

const FLAT: Road = { height: () => 0, slope: () => 0 };

export interface DriveParts {
  readonly seconds: number;
  readonly road?: Road;
  /** m/s along the road */
  readonly speed?: number;
  /** m; the rear wheel meets the road this much later */
  readonly wheelbase: number;
  /** s; how much later instead, where the bike is let settle between its wheels */
  readonly lag?: number;
  /** place of the front wheel at the start, m */
  readonly start?: number;
  /** m/s² at a time in s; default: gravity on the flat, no braking */
  readonly gravity?: Load;
  readonly braking?: Load;
  readonly chain?: Load;
  readonly push?: Load;
  readonly step?: number;
}

export function makeDrive(parts: DriveParts): Drive {
  const { road = FLAT, speed = 0, step = STEP } = parts;
  const steps = Math.round(parts.seconds / step);
  const rows = 2 * steps + 1;
  const table = new Float64Array(rows * DRIVE.width);
  const still = road === FLAT;
  fill(table, parts, road, step);
  return { step, steps, table, perSpeed: still || speed === 0 ? 0 : 1 / speed };
}

/** The loads in the order in which they are laid down, and where. */
function loadsOf({
  gravity = GRAVITY,
  braking,
  chain,
  push,
}: DriveParts): readonly (readonly [number, Load])[] {
  const all: readonly (readonly [number, Load | undefined])[] = [
    [DRIVE.gravity, gravity],
    [DRIVE.grip, braking],
    [DRIVE.chain, chain],
    [DRIVE.push, push],
  ];
  return all.filter((one): one is readonly [number, Load] => one[1] !== undefined);
}

/** How a wheel rolls over a road: where it starts, m, m/s along it, the step, s, and by how many s and m it comes later. */
type Rolling = readonly [start: number, speed: number, step: number, lag: number, behind: number];

function wheelsOf(
  { speed = 0, wheelbase, lag, start = 0 }: DriveParts,
  step: number,
): readonly (readonly [number, Rolling])[] {
  const behind = speed === 0 ? wheelbase : 0;
  return [
    [DRIVE.front, [start, speed, step, 0, 0]],
    [DRIVE.rear, [start, speed, step, speed === 0 ? 0 : (lag ?? wheelbase / speed), behind]],
  ];
}

/** The lists that a road is made of; none where it is functions. */
function listsOf(road: Road): readonly Float64Array[] {
  if ('pieces' in road) return [(road as PiecedRoad).pieces];
  return 'heights' in road ? [(road as TabledRoad).heights, (road as TabledRoad).slopes] : [];
}

function fill(table: Float64Array, parts: DriveParts, road: Road, step: number): void {
  const { code, place, read } = machine();
  const rows = table.length / DRIVE.width;
  const lists = listsOf(road);
  const placed = place(lists, table.length);
  const out = placed.at(-1)!;
  const filled = read(out, table.length).fill(0);
  for (const [column, rolling] of road === FLAT ? [] : wheelsOf(parts, step)) {
    if ('pieces' in road) code.pavePieces(out, column, rows, placed[0]!, lists[0]!.length, ...rolling);
    else if ('heights' in road) {
      const { heights, period } = road as TabledRoad;
      code.paveTabled(out, column, rows, placed[0]!, placed[1]!, heights.length - 1, period, ...rolling);
    } else paveAny(filled, column, road, rolling);
  }
  for (const [column, load] of loadsOf(parts)) {
    if (typeof load === 'function') {
      for (let i = 0; i < rows; i++) filled[column + i * DRIVE.width] = load((i * step) / 2);
      continue;
    }
    const { level, ramps, beat, onset }: Course = typeof load === 'number' ? { level: load } : load;
    code.level(out, column, rows, level);
    for (const [by, from, lasts] of ramps ?? []) code.ramp(out, column, rows, step, by, from, lasts);
    if (beat !== undefined) code.swing(out, column, rows, step, ...beat);
    if (onset !== undefined) code.setIn(out, column, rows, step, onset);
  }
  if (parts.braking !== undefined) code.divide(out, DRIVE.grip, rows, DRIVE.gravity);
  table.set(filled);
}

/** A road that is functions, under one wheel. */
function paveAny(
  table: Float64Array,
  column: number,
  road: Road,
  [start, speed, step, lag, behind]: Rolling,
): void {
  let i = 0;
  for (let row = column; row < table.length; row += DRIVE.width) {
    const at = start + speed * ((i++ * step) / 2 - lag) - behind;
    table[row] = road.height(at);
    table[row + 1] = speed * road.slope(at);
  }
}
