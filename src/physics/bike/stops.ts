/**
 * The ends of the stroke: a rubber bumper that the shaft meets before full travel, and a short top-out spring.
 * Force = stiffness·depth³ of the bumper, so that force and its first two slopes start from nothing and a fixed-step
 * integrator sees no kink. All lengths at the shaft, m; forces N.
 */

export interface Stops {
  /** the bumper touches this far before full travel, and pushes with `bottomForce` at full travel */
  readonly bottomLength: number;
  readonly bottomForce: number;
  /** the top-out spring touches this far before full extension, and pulls with `topForce` at full extension */
  readonly topLength: number;
  readonly topForce: number;
  /** how much the bumper loses, s/m: while pressed in at speed v it pushes (1 + loss·v) times as hard (Hunt & Crossley,
   * J. Appl. Mech. 42, 1975, 440-445: form from memory), never less than nothing */
  readonly loss: number;
}

/** Push (+, extending) of the stops at rest, N, at a shaft travel; `stroke` is full travel. */
export function stopForce(stops: Stops, stroke: number, travel: number): number {
  const bottom = travel - (stroke - stops.bottomLength);
  if (bottom > 0) return stops.bottomForce * cubed(bottom / stops.bottomLength);
  const top = stops.topLength - travel;
  if (top > 0) return -stops.topForce * cubed(top / stops.topLength);
  return 0;
}

/** Slope of `stopForce`, N/m. */
export function stopStiffness(stops: Stops, stroke: number, travel: number): number {
  const bottom = travel - (stroke - stops.bottomLength);
  if (bottom > 0) return (3 * stops.bottomForce * (bottom * bottom)) / cubed(stops.bottomLength);
  const top = stops.topLength - travel;
  if (top > 0) return (3 * stops.topForce * (top * top)) / cubed(stops.topLength);
  return 0;
}

/** A product, not a power, so that machine code gives the same bits. */
const cubed = (x: number): number => x * x * x;
