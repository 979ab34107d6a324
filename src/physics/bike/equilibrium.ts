/** Where the bike stands still: how deep each end sits, and the state that goes with it. */
import type { End } from '../../bike/sheet.ts';
import { GRAVITY, type Bike, type Body, type EndModel } from './bike.ts';
import type { CompiledBike, CompiledEnd } from '../ride/compile.ts';
import { machine } from '../machine/machine.ts';
import { fullStroke } from './linkage.ts';
import { springNumbers } from './spring.ts';
import { stopNumbers } from './stops.ts';

export type Loads = Readonly<Record<End, number>>;

/**
 * Weight on each end's springs standing still, N at the wheel.
 * @param gravity square to the ground, m/s²; @param braking backward pull per mass, m/s²
 */
export function staticLoads(body: Body, gravity = GRAVITY, braking = 0): Loads {
  const base = body.toFront + body.toRear;
  const front = (body.mass * (body.toRear * gravity + body.height * braking)) / base;
  return { front, rear: body.mass * gravity - front };
}

/** What each spring carries, N at the wheel: the weight, and what brakes press in that hold as much as each tyre can. */
export function springLoads(bike: Bike, gravity = GRAVITY, braking = 0): Loads {
  const loads = staticLoads(bike.body, gravity, braking);
  const of = (which: End): number => {
    const { unsprungMass, pulledIn } = bike.ends[which];
    return loads[which] + pulledIn.braking * (braking / gravity) * (loads[which] + unsprungMass * gravity);
  };
  return { front: of('front'), rear: of('rear') };
}

/** How far past each end of the stroke anything is worked out, as a share of the travel. */
export const MARGIN = 0.08;

/** Wheel travel in m at which an end comes to rest under a load in N at the wheel, the gas at its temperature again. */
export function restUnder({ spring, stops, linkage }: EndModel, load: number): number {
  const { code, place } = machine();
  const [ratios, ends, gas] = place([
    Float64Array.of(linkage.c0, linkage.c1, linkage.c2),
    stopNumbers(stops, fullStroke(linkage)),
    springNumbers(spring, 0),
  ]);
  return code.restUnder(-MARGIN * linkage.travel, (1 + MARGIN) * linkage.travel, ratios, ends, gas, load);
}

/** The same for an end of a bike standing on a slope or held by its brakes. */
export function restTravel(bike: Bike, which: End, gravity = GRAVITY, braking = 0): number {
  return restUnder(bike.ends[which], springLoads(bike, gravity, braking)[which]);
}

/** Wheel travel in m at which the elastic force of quick movements carries a load in N, to 1e-12 m. */
export function sagAt({ elastic }: CompiledEnd, load: number): number {
  const { code, place } = machine();
  return code.depthUnder(place([elastic.nodes])[0], elastic.first, elastic.perUnit, elastic.pieces, load);
}

/** Where things are in the state; the rates follow in the same order. m and rad. */
export const STATE = { heave: 0, pitch: 1, front: 2, rear: 3, riderHeave: 4, riderPitch: 5 } as const;
/** How many coordinates there are. */
export const COORDINATES = 6;

/** The state at rest on a road at given heights under each wheel. Returns a fresh array of twelve. */
export function restState(
  c: CompiledBike,
  gravity = GRAVITY,
  braking = 0,
  roadFront = 0,
  roadRear = 0,
): Float64Array {
  const loads = staticLoads(c.bike.body, gravity, braking);
  const springs = springLoads(c.bike, gravity, braking);
  const wheelFront = roadFront - pressedIn(c.front, loads.front + c.front.unsprungMass * gravity);
  const wheelRear = roadRear - pressedIn(c.rear, loads.rear + c.rear.unsprungMass * gravity);
  const bodyFront = wheelFront - sagAt(c.front, springs.front);
  const bodyRear = wheelRear - sagAt(c.rear, springs.rear);
  const base = c.toFront + c.toRear;
  const y = new Float64Array(2 * COORDINATES);
  y[STATE.heave] = (c.toRear * bodyFront + c.toFront * bodyRear) / base;
  y[STATE.pitch] = (bodyFront - bodyRear) / base;
  y[STATE.front] = wheelFront;
  y[STATE.rear] = wheelRear;
  const { rider, frame } = c.bike.body;
  if (rider === undefined) return y;
  const reach = rider.toBars - rider.toFeet;
  const arms = (rider.slowed * braking - rider.mass * gravity * rider.toFeet) / reach;
  const legs = rider.mass * gravity - arms;
  const feet = y[STATE.heave]! + frame.toFeet * y[STATE.pitch]! - legs / rider.legs.stiffness;
  const hands = y[STATE.heave]! + frame.toBars * y[STATE.pitch]! - arms / rider.arms.stiffness;
  y[STATE.riderPitch] = (hands - feet) / reach;
  y[STATE.riderHeave] = feet - rider.toFeet * y[STATE.riderPitch]!;
  return y;
}

function pressedIn(end: CompiledEnd, load: number): number {
  const ratio = Math.max(0, load) / end.tyreStiffness;
  return end.hertz ? Math.cbrt(ratio * ratio) : ratio;
}
