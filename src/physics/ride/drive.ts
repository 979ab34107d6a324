/** What happens to the bike during a run, as tables over time: the road under each wheel, gravity, braking. */
import { GRAVITY } from '../bike/bike.ts';
import { machine, type Machine } from '../machine/machine.ts';
import {
  byGravity,
  DRIVE,
  over,
  paveAny,
  pavePieces,
  paveTabled,
  type Course,
  type Load,
  type Rolling,
} from './columns.ts';
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

export { DRIVE } from './columns.ts';
export type { Road } from './pieces.ts';

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
  const by = machine();
  if (by !== undefined && isNumbers(parts)) fillAtOnce(by, table, parts, road, step);
  else fill(table, parts, road, step);
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

/** How each wheel rolls over the road. */
function wheelsOf(
  { speed = 0, wheelbase, lag, start = 0 }: DriveParts,
  step: number,
): readonly (readonly [number, Rolling])[] {
  const behind = speed === 0 ? wheelbase : 0;
  return [
    [DRIVE.front, { start, speed, step, lag: 0, behind: 0 }],
    [DRIVE.rear, { start, speed, step, lag: speed === 0 ? 0 : (lag ?? wheelbase / speed), behind }],
  ];
}

/** Whether all of it is numbers: what is handed in as a function cannot be called from machine code. */
function isNumbers({ road = FLAT, ...parts }: DriveParts): boolean {
  return (
    (road === FLAT || 'pieces' in road || 'heights' in road) &&
    loadsOf(parts).every(([, load]) => typeof load !== 'function')
  );
}

function fill(table: Float64Array, parts: DriveParts, road: Road, step: number): void {
  const pave = 'pieces' in road ? pavePieces : 'heights' in road ? paveTabled : paveAny;
  if (road !== FLAT)
    for (const [column, rolling] of wheelsOf(parts, step))
      pave(table, column, road as PiecedRoad & TabledRoad, rolling);
  for (const [column, load] of loadsOf(parts)) over(table, column, step, load);
  if (parts.braking !== undefined) byGravity(table);
}

/** The same in machine code. */
function fillAtOnce(
  { place, at, code }: Machine,
  table: Float64Array,
  parts: DriveParts,
  road: Road,
  step: number,
): void {
  const rows = table.length / DRIVE.width;
  const lists =
    'pieces' in road
      ? [(road as PiecedRoad).pieces]
      : 'heights' in road
        ? [(road as TabledRoad).heights, (road as TabledRoad).slopes]
        : [];
  const pointers = place(lists, table.length);
  const out = pointers.at(-1)!;
  const filled = at(out, table.length).fill(0);
  const of = (column: number): number => out + 8 * column;
  if (road !== FLAT)
    for (const [column, { start, speed, lag, behind }] of wheelsOf(parts, step)) {
      const rolling = [start, speed, step, lag, behind] as const;
      if ('pieces' in road) code.pavePieces(of(column), rows, pointers[0]!, out, ...rolling);
      else {
        const { heights, period } = road as TabledRoad;
        code.paveTabled(of(column), rows, pointers[0]!, pointers[1]!, heights.length - 1, period, ...rolling);
      }
    }
  for (const [column, load] of loadsOf(parts)) {
    if (typeof load === 'function') continue;
    const { level, ramps, beat, onset }: Course = typeof load === 'number' ? { level: load } : load;
    code.level(of(column), rows, level);
    for (const [by, from, lasts] of ramps ?? []) code.ramp(of(column), rows, step, by, from, lasts);
    if (beat !== undefined) code.swing(of(column), rows, step, ...beat);
    if (onset !== undefined) code.setIn(of(column), rows, step, onset);
  }
  if (parts.braking !== undefined) code.divide(out, rows, DRIVE.grip, DRIVE.gravity);
  table.set(filled);
}
