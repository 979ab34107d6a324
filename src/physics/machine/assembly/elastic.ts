/** The table of spring and stops, as `end-tables.ts` makes it, of `linkage.ts`, `spring.ts` and `stops.ts`. */
import { power } from './engine';

/** Pieces of Simpson's rule. */
const PIECES = 32;

function ratioAt(linkage: usize, wheel: f64): f64 {
  return load<f64>(linkage) + wheel * (load<f64>(linkage, 8) + wheel * load<f64>(linkage, 16));
}

function shaftTravel(linkage: usize, wheel: f64): f64 {
  if (load<f64>(linkage, 8) == 0 && load<f64>(linkage, 16) == 0) return wheel / load<f64>(linkage);
  const h = wheel / PIECES;
  let sum = 1 / ratioAt(linkage, 0) + 1 / ratioAt(linkage, wheel);
  for (let i = 1; i < PIECES; i++) {
    const weight: f64 = i % 2 == 1 ? 4 : 2;
    sum += weight / ratioAt(linkage, <f64>i * h);
  }
  return (sum * h) / 3;
}

function cubed(x: f64): f64 {
  return x * x * x;
}

/**
 * @param linkage c0, c1 and c2
 * @param stops stroke, then length and force of the bottom and of the top stop
 * @param spring 0 for a coil, its rate and preload; 1 for air, then what `gasAt` puts together
 */
export function elasticTable(
  nodes: usize,
  pieces: i32,
  first: f64,
  spacing: f64,
  linkage: usize,
  stops: usize,
  spring: usize,
): void {
  const stroke = load<f64>(stops);
  const bottomLength = load<f64>(stops, 8);
  const bottomForce = load<f64>(stops, 16);
  const topLength = load<f64>(stops, 24);
  const topForce = load<f64>(stops, 32);
  const air = load<f64>(spring) == 1;
  for (let i = 0; i <= pieces; i++) {
    const wheel = first + <f64>i * spacing;
    const shaft = shaftTravel(linkage, wheel);
    const ratio = ratioAt(linkage, wheel);
    let force: f64;
    let stiffness: f64;
    if (air) {
      const area = load<f64>(spring, 8);
      const negativeArea = load<f64>(spring, 16);
      const exponent = load<f64>(spring, 40);
      const atmosphere = load<f64>(spring, 80);
      const positiveVolume = load<f64>(spring, 24) - area * shaft;
      const negativeVolume = load<f64>(spring, 32) + negativeArea * shaft;
      const positive = load<f64>(spring, 48) * power(load<f64>(spring, 56) / positiveVolume, exponent);
      const negative = load<f64>(spring, 64) * power(load<f64>(spring, 72) / negativeVolume, exponent);
      force = area * (positive - atmosphere) - negativeArea * (negative - atmosphere);
      stiffness =
        exponent *
        ((positive * (area * area)) / positiveVolume +
          (negative * (negativeArea * negativeArea)) / negativeVolume);
    } else {
      stiffness = load<f64>(spring, 8);
      force = stiffness * (load<f64>(spring, 16) + shaft);
    }
    const bottom = shaft - (stroke - bottomLength);
    const top = topLength - shaft;
    let push: f64 = 0;
    let slope: f64 = 0;
    if (bottom > 0) {
      push = bottomForce * cubed(bottom / bottomLength);
      slope = (3 * bottomForce * (bottom * bottom)) / cubed(bottomLength);
    } else if (top > 0) {
      push = -topForce * cubed(top / topLength);
      slope = (3 * topForce * (top * top)) / cubed(topLength);
    }
    force += push;
    stiffness += slope;
    const bend = load<f64>(linkage, 8) + 2 * load<f64>(linkage, 16) * wheel;
    const node = nodes + ((<usize>i) << 4);
    store<f64>(node, force / ratio);
    store<f64>(node, ((stiffness - force * bend) / (ratio * ratio)) * spacing, 8);
  }
}
