/** What a scenario is made of: a road or a load over time, and the instants its metrics look at. */
import { makeDrive, type Drive, type Road } from './drive.ts';
import { kerbDown } from './roads.ts';

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

/** Radius of the wheel with its tyre, m; a 29-inch wheel (622 mm rim, 60 mm tyre), rounded. */
export const WHEEL_RADIUS = 0.37;

/** 0 → 1 over a time, with no kink at either end. */
export function ramp(time: number, from: number, lasts: number): number {
  const s = Math.min(1, Math.max(0, (time - from) / lasts));
  return s * s * (3 - 2 * s);
}

/**
 * One thing in the road, met by the front wheel and then by the rear; lengths in m, speed in m/s.
 * @param after seconds that the run goes on once the rear wheel is past it
 * @param length of what is met
 * @param first where it begins
 */
export function event(
  wheelbase: number,
  speed: number,
  after: number,
  length: number,
  road: Road,
  first: number,
): Staged {
  const front = first / speed;
  const rear = (first + wheelbase) / speed;
  const seconds = rear + length / speed + after;
  return {
    drive: makeDrive({ seconds, road, speed, wheelbase }),
    marks: { front: [front], rear: [rear], lasts: length / speed, release: seconds },
  };
}

/**
 * Flat ground under a load that comes and goes, the same for both ends.
 * @param from @param until s, from the beginning of the load to its being let go
 * @param load s; gravity square to the ground and backward pull per mass, m/s², over time
 */
export function held(
  wheelbase: number,
  from: number,
  until: number,
  load: { seconds: number; gravity?: (t: number) => number; braking?: (t: number) => number },
): Staged {
  return {
    drive: makeDrive({ wheelbase, ...load }),
    marks: { front: [from], rear: [from], lasts: until - from, release: until },
  };
}

/**
 * Both wheels roll off an edge, one after the other.
 * @param height of the edge, m; speed in m/s
 * @param load as above, for an edge on a slope
 */
export function edge(
  wheelbase: number,
  speed: number,
  height: number,
  load: { gravity?: (t: number) => number; braking?: (t: number) => number },
): Staged {
  const first = 0.3;
  const front = first / speed;
  const rear = (first + wheelbase) / speed;
  const seconds = rear + 1.5;
  return {
    drive: makeDrive({ seconds, road: kerbDown(first, height, WHEEL_RADIUS), speed, wheelbase, ...load }),
    marks: { front: [front], rear: [rear], lasts: WHEEL_RADIUS / speed, release: seconds },
  };
}
