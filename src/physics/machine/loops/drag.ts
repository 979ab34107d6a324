/** The table of damper and friction over squeezed shaft speed, as `ride/end-tables.ts` wants it. */
import type { f64, i32, Numbers } from './numbers.ts';
import { rootForce, slopeAt } from './circuit.ts';

/** m/s; about where a damper leaves its orifice */
export const SQUEEZE: f64 = 0.5;

/**
 * Damper and friction at the shaft, N, at a shaft speed in m/s, + = compressing.
 * @param circuits orifice, stack and preload of compression, then of rebound, then viscous, coulomb and blend
 * @param sigma root force of the circuit, √N
 */
export function dragAt(circuits: Numbers, speed: f64, sigma: f64): f64 {
  // The engine's own `hypot` is several times as slow, and these numbers are of one size.
  const apart = Math.sqrt(speed * speed + circuits[8]! * circuits[8]!);
  return Math.sign(speed) * sigma * sigma + circuits[6]! * speed + (circuits[7]! * speed) / apart;
}

/** Where the circuit begins that is at work. */
export function circuitAt(speed: f64): i32 {
  return speed > 0 ? 0 : 3;
}

/** Nodes of `pieces` pieces, their slopes times the spacing. */
export function dragTable(nodes: Numbers, pieces: i32, first: f64, spacing: f64, circuits: Numbers): void {
  const viscous = circuits[6]!;
  const coulomb = circuits[7]!;
  const blend = circuits[8]!;
  for (let i = 0; i <= pieces; i++) {
    const s = first + i * spacing;
    const speed = (SQUEEZE * s) / (1 - Math.abs(s));
    const at = circuitAt(speed);
    const orifice = circuits[at]!;
    const stack = circuits[at + 1]!;
    const preload = circuits[at + 2]!;
    const sigma = rootForce(orifice, stack, preload, Math.abs(speed));
    const apart = Math.sqrt(speed * speed + blend * blend);
    const dry: f64 = coulomb === 0 ? 0 : (coulomb * blend * blend) / (apart * apart * apart);
    const slope = slopeAt(orifice, stack, preload, sigma) + viscous + dry;
    const left = 1 - Math.abs(s);
    nodes[2 * i] = dragAt(circuits, speed, sigma);
    nodes[2 * i + 1] = ((slope * SQUEEZE) / (left * left)) * spacing;
  }
}

/** Its slope turned back into one over the speed, N·s/m, where it is largest. */
export function steepest(nodes: Numbers, pieces: i32, first: f64, perUnit: f64): f64 {
  let most: f64 = 0;
  for (let i = 0; i <= pieces; i++) {
    const left = 1 - Math.abs(first + i / perUnit);
    const slope = (nodes[2 * i + 1]! * perUnit * left * left) / SQUEEZE;
    if (slope > most) most = slope;
  }
  return most;
}
