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

/** What the loops need of them; `stroke` is full travel. */
export function stopNumbers(stops: Stops, stroke: number): Float64Array {
  return Float64Array.of(stroke, stops.bottomLength, stops.bottomForce, stops.topLength, stops.topForce);
}
