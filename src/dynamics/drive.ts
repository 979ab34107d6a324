/** What happens to the bike during a run, as tables over time: the road under each wheel, gravity, braking. */
import { GRAVITY } from './bike.ts';

export interface Drive {
  /** step of the integrator, s, and how many */
  readonly step: number;
  readonly steps: number;
  /** every half step: 2·steps + 1 values. Road heights in m and their rates in m/s; m/s² for the other two */
  readonly roadFront: Float64Array;
  readonly roadRear: Float64Array;
  readonly roadFrontRate: Float64Array;
  readonly roadRearRate: Float64Array;
  readonly gravity: Float64Array;
  readonly braking: Float64Array;
}

/**
 * 0.25 ms. The fastest motion of the bike is a wheel between tyre and bumper, up to about 120 Hz. Against an independent
 * adaptive solver the state after a row of bumps is then off by less than 0.1 µm and 1 µm/s (measured), far below what
 * the constants are worth; the step is this short so that the vibration at the hands is sampled at 4 kHz.
 */
const STEP = 0.00025;

/** Height in m and slope of the road at a distance along it, m. */
export interface Road {
  height(at: number): number;
  slope(at: number): number;
}

const FLAT: Road = { height: () => 0, slope: () => 0 };

export interface DriveParts {
  readonly seconds: number;
  readonly road?: Road;
  /** m/s along the road */
  readonly speed?: number;
  /** m; the rear wheel meets the road this much later */
  readonly wheelbase: number;
  /** place of the front wheel at the start, m */
  readonly start?: number;
  /** m/s² at a time in s; default: gravity on the flat, no braking */
  readonly gravity?: (time: number) => number;
  readonly braking?: (time: number) => number;
  readonly step?: number;
}

export function makeDrive(parts: DriveParts): Drive {
  const { road = FLAT, speed = 0, wheelbase, start = 0, step = STEP } = parts;
  const steps = Math.round(parts.seconds / step);
  const size = 2 * steps + 1;
  const table = (fill: (time: number) => number): Float64Array => {
    const values = new Float64Array(size);
    for (let i = 0; i < size; i++) values[i] = fill((i * step) / 2);
    return values;
  };
  const still = road === FLAT;
  const zero = new Float64Array(size);
  const front = (time: number): number => start + speed * time;
  const rear = (time: number): number => front(time) - wheelbase;
  const { gravity, braking } = parts;
  return {
    step,
    steps,
    roadFront: still ? zero : table((t) => road.height(front(t))),
    roadRear: still ? zero : table((t) => road.height(rear(t))),
    roadFrontRate: still ? zero : table((t) => speed * road.slope(front(t))),
    roadRearRate: still ? zero : table((t) => speed * road.slope(rear(t))),
    gravity: gravity === undefined ? new Float64Array(size).fill(GRAVITY) : table(gravity),
    braking: braking === undefined ? zero : table(braking),
  };
}
