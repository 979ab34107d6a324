/** What a scenario is made of: a road or a load over time, and the instants its metrics look at. */
import { makeDrive, type Drive, type DriveParts, type Road } from '../ride/drive.ts';
import { WHEEL_RADIUS } from '../defaults.ts';
import { kerbDown } from '../ride/roads.ts';

export interface Staged {
  readonly drive: Drive;
  /** seconds: the instants that metrics look at, by end where the ends differ */
  readonly marks: Marks;
}

export interface Marks {
  /** when each bump, or the one event, begins for the front and the rear wheel */
  readonly front: readonly number[];
  readonly rear: readonly number[];
  /** one bump, or the event, lasts this long */
  readonly lasts: number;
  /** when what was held is let go: the berm's end, the brakes; the end of the run when nothing is held */
  readonly release: number;
}

/**
 * One thing in the road, met by one wheel and, once the bike is still again, by the other; lengths in m, speed in m/s.
 * So each end is read without what the other wheel does.
 * @param apart seconds from the one to the other, and from there to the end
 * @param length of what is met
 * @param first where it begins
 */
export function event(
  wheelbase: number,
  speed: number,
  apart: number,
  length: number,
  road: Road,
  first: number,
  step: number,
): Staged {
  const front = first / speed;
  const rear = front + apart;
  const seconds = rear + apart;
  return {
    drive: makeDrive({ seconds, road, speed, wheelbase, lag: apart, step }),
    marks: { front: [front], rear: [rear], lasts: length / speed, release: seconds },
  };
}

type Load = Pick<DriveParts, 'gravity' | 'braking'>;

/**
 * Flat ground under a load that comes and goes, the same for both ends.
 * @param from @param until s, from the beginning of the load to its being let go
 * @param load s; gravity square to the ground and backward pull per mass, m/s², over time
 */
export function held(
  wheelbase: number,
  from: number,
  until: number,
  load: Load & { seconds: number; step: number },
): Staged {
  return {
    drive: makeDrive({ wheelbase, ...load }),
    marks: { front: [from], rear: [from], lasts: until - from, release: until },
  };
}

/** s: how long the bike is left to settle between its wheels, and after them. */
const SETTLES = 1.3;

/**
 * Each wheel rolls off an edge, one after the other, the bike left to settle between.
 * @param height of the edge, m; speed in m/s
 * @param load as above, for an edge on a slope
 */
export function edge(wheelbase: number, speed: number, height: number, step: number, load: Load): Staged {
  const first = 0.1 * speed;
  const front = first / speed;
  const rear = front + SETTLES;
  const seconds = rear + SETTLES;
  return {
    drive: makeDrive({
      seconds,
      road: kerbDown(first, height, WHEEL_RADIUS),
      speed,
      wheelbase,
      lag: SETTLES,
      step,
      ...load,
    }),
    marks: { front: [front], rear: [rear], lasts: WHEEL_RADIUS / speed, release: seconds },
  };
}

/**
 * Equal things in a row at a spacing, met by both wheels as they come.
 * @param length of one, m
 */
export function rowOf(
  wheelbase: number,
  speed: number,
  road: Road,
  row: { first: number; count: number; spacing: number; length: number },
  step: number,
): Staged {
  const { first, count, spacing, length } = row;
  const front = Array.from({ length: count }, (_, i) => (first + i * spacing) / speed);
  const seconds = front.at(-1)! + (length + wheelbase) / speed + 0.2;
  return {
    drive: makeDrive({ seconds, road, speed, wheelbase, step }),
    marks: {
      front,
      rear: front.map((t) => t + wheelbase / speed),
      lasts: length / speed,
      release: seconds,
    },
  };
}
