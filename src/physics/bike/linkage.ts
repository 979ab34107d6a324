/**
 * How the wheel moves the shaft. The ratio L = d(wheel)/d(shaft) is a parabola in the wheel's vertical travel; by
 * virtual work the force at the wheel is the shaft's ÷ L, and the shaft's speed is the wheel's ÷ L.
 */
import { ratioOf } from '../machine/loops/ratio.ts';
import { machine } from '../machine/machine.ts';

export interface Linkage {
  /** vertical wheel travel, m */
  readonly travel: number;
  /** ratio(x) = c0 + c1·x + c2·x², x in m of wheel travel */
  readonly c0: number;
  readonly c1: number;
  readonly c2: number;
}

/**
 * A telescopic fork: the axle moves along the steering axis, so its vertical travel is sin(head angle) of the fork's.
 * @param forkTravel m along the fork
 * @param headAngle degrees from horizontal
 */
export function forkLinkage(forkTravel: number, headAngle: number): Linkage {
  const ratio = Math.sin((headAngle * Math.PI) / 180);
  return { travel: forkTravel * ratio, c0: ratio, c1: 0, c2: 0 };
}

/**
 * @param ratios at 0 %, 50 % and 100 % of the wheel travel
 * @param stroke shaft travel at full wheel travel, m; the ratios are scaled to it, because travel and stroke are the
 *   maker's hard numbers and a ratio read off a plot is not
 */
export function shockLinkage(
  travel: number,
  ratios: readonly [number, number, number],
  stroke?: number,
): Linkage {
  const [start, middle, end] = ratios;
  const raw: Linkage = {
    travel,
    c0: start,
    c1: (4 * middle - 3 * start - end) / travel,
    c2: (2 * start - 4 * middle + 2 * end) / travel ** 2,
  };
  if (stroke === undefined) return raw;
  const scale = shaftTravel(raw, travel) / stroke;
  return { travel, c0: raw.c0 * scale, c1: raw.c1 * scale, c2: raw.c2 * scale };
}

export function ratioAt({ c0, c1, c2 }: Linkage, wheel: number): number {
  return ratioOf(c0, c1, c2, wheel);
}

/** Shaft travel in m at a wheel travel in m: ∫dx/L by Simpson's rule, error far below a micrometre. */
export function shaftTravel({ c0, c1, c2 }: Linkage, wheel: number): number {
  return machine().code.shaftOf(c0, c1, c2, wheel);
}

/** The inverse of `shaftTravel`, by Newton's method. */
export function wheelTravel(linkage: Linkage, shaft: number): number {
  let wheel = shaft * linkage.c0;
  for (let i = 0; i < 20; i++) {
    const step = (shaftTravel(linkage, wheel) - shaft) * ratioAt(linkage, wheel);
    wheel -= step;
    if (Math.abs(step) < 1e-12) break;
  }
  return wheel;
}

export function fullStroke(linkage: Linkage): number {
  return shaftTravel(linkage, linkage.travel);
}
