/**
 * The equations of motion.
 *
 * Coordinates, all measured upward from the bike at full extension with its tyres just touching a road at height 0:
 * heave z of the centre of mass, pitch θ (nose up), the two wheels. Small angles; wheels move vertically; the rider is
 * part of the sprung body. State = [z, θ, z_front wheel, z_rear wheel] and their rates, m, rad, m/s, rad/s.
 *
 *   mass·z̈       = F_front + F_rear − mass·g
 *   inertia·θ̈    = toFront·F_front − toRear·F_rear − mass·height·braking
 *   unsprung·z̈_w = T − F − unsprung·g
 *
 * F: spring, damper, friction and stops at the wheel; T ≥ 0: the tyre. `g` is gravity square to the ground, with what a
 * berm adds; `braking` is the ground's backward pull per mass, m/s² (held speed on a slope: g·sin slope).
 */
import type { CompiledBike, CompiledEnd } from './compile.ts';
import { tabulated } from './compile.ts';
import { rootForce } from './damper.ts';

/** What the ground and the rider do at one instant. */
export interface Instant {
  roadFront: number;
  roadRear: number;
  roadFrontRate: number;
  roadRearRate: number;
  gravity: number;
  braking: number;
}

/** Force of one end on the body, N at the wheel, + = up; `travel` and `rate` are the wheel's against the body, m, m/s. */
export function suspensionForce(end: CompiledEnd, travel: number, rate: number): number {
  const ratio = end.c0 + travel * (end.c1 + travel * end.c2);
  const speed = rate / ratio;
  let drag = end.viscous * speed + (end.coulomb * speed) / Math.sqrt(speed * speed + end.blendSquared);
  if (speed > 0) {
    const sigma = rootForce(end.compression, speed);
    drag += sigma * sigma;
  } else if (speed < 0) {
    const sigma = rootForce(end.rebound, -speed);
    drag -= sigma * sigma;
  }
  let force = tabulated(end, travel) + drag / ratio;
  const depth = travel - end.bumperFrom;
  if (depth > 0) force += end.bumper * depth * depth * depth * Math.max(-1, end.bumperLoss * rate);
  return force;
}

export function tyrePush(end: CompiledEnd, deflection: number, rate: number): number {
  if (deflection <= 0) return 0;
  const rest = end.tyreStiffness * (end.hertz ? deflection * Math.sqrt(deflection) : deflection);
  const factor = 1 + end.tyreLoss * rate;
  return factor > 0 ? rest * factor : 0;
}

/** Slots of what `accelerate` writes. */
export const OUT = {
  heave: 0,
  pitch: 1,
  frontWheel: 2,
  rearWheel: 3,
  frontForce: 4,
  rearForce: 5,
  frontTyre: 6,
  rearTyre: 7,
} as const;

/** Accelerations and the forces behind them at one state. */
export function accelerate(c: CompiledBike, y: Float64Array, now: Instant, out: Float64Array): void {
  const pitch = y[1]!;
  const pitchRate = y[5]!;
  const front = suspensionForce(
    c.front,
    y[2]! - y[0]! - c.toFront * pitch,
    y[6]! - y[4]! - c.toFront * pitchRate,
  );
  const rear = suspensionForce(
    c.rear,
    y[3]! - y[0]! + c.toRear * pitch,
    y[7]! - y[4]! + c.toRear * pitchRate,
  );
  const frontTyre = tyrePush(c.front, now.roadFront - y[2]!, now.roadFrontRate - y[6]!);
  const rearTyre = tyrePush(c.rear, now.roadRear - y[3]!, now.roadRearRate - y[7]!);
  out[0] = (front + rear) / c.mass - now.gravity;
  out[1] = (c.toFront * front - c.toRear * rear - c.mass * c.height * now.braking) / c.inertia;
  out[2] = (frontTyre - front) / c.front.unsprungMass - now.gravity;
  out[3] = (rearTyre - rear) / c.rear.unsprungMass - now.gravity;
  out[4] = front;
  out[5] = rear;
  out[6] = frontTyre;
  out[7] = rearTyre;
}
