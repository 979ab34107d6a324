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
import { squeezed, type CompiledBike, type CompiledEnd } from './compile.ts';
import type { Drive } from './drive.ts';
import { readTable } from './table.ts';

/** Force of one end on the body, N at the wheel, + = up; `travel` and `rate` are the wheel's against the body, m, m/s. */
export function suspensionForce(end: CompiledEnd, travel: number, rate: number): number {
  const ratio = end.c0 + travel * (end.c1 + travel * end.c2);
  const force = readTable(end.elastic, travel) + readTable(end.drag, squeezed(rate / ratio)) / ratio;
  const depth = travel - end.bumperFrom;
  if (depth <= 0) return force;
  return force + end.bumper * depth * depth * depth * Math.max(-1, end.bumperLoss * rate);
}

/** N; never less than nothing. */
function tyrePush(end: CompiledEnd, deflection: number, rate: number): number {
  if (deflection <= 0) return 0;
  const rest = end.tyreStiffness * (end.hertz ? deflection * Math.sqrt(deflection) : deflection);
  const factor = 1 + end.tyreLoss * rate;
  return factor > 0 ? rest * factor : 0;
}

/** Accelerations and the forces behind them at one state, at the `at`-th half step of the drive.
 * `out`: of heave, pitch, front and rear wheel; then front and rear suspension force and front and rear tyre load. */
export function accelerate(
  c: CompiledBike,
  y: Float64Array,
  drive: Drive,
  at: number,
  out: Float64Array,
): void {
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
  const frontTyre = tyrePush(c.front, drive.roadFront[at]! - y[2]!, drive.roadFrontRate[at]! - y[6]!);
  const rearTyre = tyrePush(c.rear, drive.roadRear[at]! - y[3]!, drive.roadRearRate[at]! - y[7]!);
  const gravity = drive.gravity[at]!;
  out[0] = (front + rear) / c.mass - gravity;
  out[1] = (c.toFront * front - c.toRear * rear - c.mass * c.height * drive.braking[at]!) / c.inertia;
  out[2] = (frontTyre - front) / c.front.unsprungMass - gravity;
  out[3] = (rearTyre - rear) / c.rear.unsprungMass - gravity;
  out[4] = front;
  out[5] = rear;
  out[6] = frontTyre;
  out[7] = rearTyre;
}
