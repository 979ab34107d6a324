/** How the wheel moves the shaft: the laws of `bike/linkage.ts`. */
import type { f64 } from './numbers.ts';

/** Pieces of Simpson's rule: the error is far below a micrometre. */
const PIECES = 32;

export function ratioOf(c0: f64, c1: f64, c2: f64, wheel: f64): f64 {
  return c0 + wheel * (c1 + wheel * c2);
}

/** d(ratio)/d(wheel travel), 1/m. */
export function bendOf(c1: f64, c2: f64, wheel: f64): f64 {
  return c1 + 2 * c2 * wheel;
}

/** ∫dx/ratio up to a wheel travel in m. */
export function shaftOf(c0: f64, c1: f64, c2: f64, wheel: f64): f64 {
  if (c1 === 0 && c2 === 0) return wheel / c0;
  const h = wheel / PIECES;
  let sum = 1 / ratioOf(c0, c1, c2, 0) + 1 / ratioOf(c0, c1, c2, wheel);
  for (let i = 1; i < PIECES; i++) {
    const weight: f64 = i % 2 === 1 ? 4 : 2;
    sum += weight / ratioOf(c0, c1, c2, i * h);
  }
  return (sum * h) / 3;
}
