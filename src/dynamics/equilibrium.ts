/** Where the bike stands still: how deep each end sits, and the state that goes with it. */
import { GRAVITY, type Body } from './bike.ts';
import type { CompiledBike, CompiledEnd } from './compile.ts';
import { readTable } from './table.ts';

/**
 * Load on each end's springs standing still, N at the wheel.
 * @param gravity square to the ground, m/s²; @param braking backward pull per mass, m/s²
 */
export function staticLoads(
  body: Body,
  gravity = GRAVITY,
  braking = 0,
): { readonly front: number; readonly rear: number } {
  const base = body.toFront + body.toRear;
  const front = (body.mass * (body.toRear * gravity + body.height * braking)) / base;
  return { front, rear: body.mass * gravity - front };
}

/** Wheel travel in m at which the elastic force carries a load in N, by bisection to 1e-12 m. */
export function sagAt(end: CompiledEnd, load: number): number {
  let low = end.elastic.first;
  let high = end.elastic.first + end.elastic.pieces / end.elastic.perUnit;
  for (let i = 0; i < 60 && high - low > 1e-12; i++) {
    const middle = (low + high) / 2;
    if (readTable(end.elastic, middle) < load) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The state at rest on a road at given heights under each wheel. Returns a fresh array of eight. */
export function restState(
  c: CompiledBike,
  gravity = GRAVITY,
  braking = 0,
  roadFront = 0,
  roadRear = 0,
): Float64Array {
  const loads = staticLoads(c.bike.body, gravity, braking);
  const wheelFront = roadFront - pressedIn(c.front, loads.front + c.front.unsprungMass * gravity);
  const wheelRear = roadRear - pressedIn(c.rear, loads.rear + c.rear.unsprungMass * gravity);
  const bodyFront = wheelFront - sagAt(c.front, loads.front);
  const bodyRear = wheelRear - sagAt(c.rear, loads.rear);
  const base = c.toFront + c.toRear;
  const y = new Float64Array(8);
  y[0] = (c.toRear * bodyFront + c.toFront * bodyRear) / base;
  y[1] = (bodyFront - bodyRear) / base;
  y[2] = wheelFront;
  y[3] = wheelRear;
  return y;
}

function pressedIn(end: CompiledEnd, load: number): number {
  const ratio = Math.max(0, load) / end.tyreStiffness;
  return end.hertz ? Math.cbrt(ratio * ratio) : ratio;
}
