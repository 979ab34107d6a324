/**
 * A bike made ready for the inner loop: what each end does at rest as a table over wheel travel, what it does against
 * speed as a table over shaft speed. Compiled once a bike; a run then allocates nothing but its trace.
 */
import type { Bike, Body, EndModel, Frame } from '../bike/bike.ts';
import { damperForce, damperSlope } from '../bike/damper.ts';
import { MARGIN, restUnder, springLoads } from '../bike/equilibrium.ts';
import { fullStroke, ratioAt, ratioSlope, shaftTravel, type Linkage } from '../bike/linkage.ts';
import { springForce, springStiffness } from '../bike/spring.ts';
import { stopForce, stopStiffness } from '../bike/stops.ts';
import { makeTable, type Table } from '../table.ts';

export interface CompiledEnd {
  /** elastic force of quick movements at the wheel, N, over vertical wheel travel, m */
  readonly elastic: Table;
  /** damper and friction at the shaft, N, over `squeezed` shaft speed */
  readonly drag: Table;
  readonly c0: number;
  readonly c1: number;
  readonly c2: number;
  /** wheel travel where the bumper begins, m; its force at the wheel is bumper·depth³ in wheel travel */
  readonly bumperFrom: number;
  readonly bumper: number;
  readonly bumperLoss: number;
  readonly hertz: boolean;
  readonly tyreStiffness: number;
  readonly tyreLoss: number;
  readonly unsprungMass: number;
  readonly perUnsprungMass: number;
  /** as `pulledIn` of the end */
  readonly braking: number;
  readonly bump: number;
  readonly chain: number;
}

export interface CompiledBike {
  readonly bike: Bike;
  readonly front: CompiledEnd;
  readonly rear: CompiledEnd;
  /** all masses with the wheels, kg; `per…` is 1 ÷ it, because dividing costs more than all else */
  readonly total: number;
  readonly perTotal: number;
  readonly perFrameMass: number;
  readonly perFrameInertia: number;
  readonly frameSlowed: number;
  readonly toFront: number;
  readonly toRear: number;
  readonly toBars: number;
  readonly toFeet: number;
  /** 0: a stiff rider, part of the frame */
  readonly riderMass: number;
  readonly perRiderMass: number;
  readonly perRiderInertia: number;
  readonly riderSlowed: number;
  readonly riderBars: number;
  readonly riderFeet: number;
  readonly legs: number;
  readonly legsLoss: number;
  readonly arms: number;
  readonly armsLoss: number;
  /** frame and rider as one body: what their rates count in its heave, 1, and in its pitch, 1 and 1/m */
  readonly frameShare: number;
  readonly riderShare: number;
  readonly frameTurns: number;
  readonly riderTurns: number;
  readonly apart: number;
  /** its centre of mass to both axles, m */
  readonly bodyToFront: number;
  readonly bodyToRear: number;
  /** s: the longest step with which the integrator follows this bike */
  readonly step: number;
}

const ELASTIC_PIECES = 512;
/** Even, so that a node stands at rest, where the damper's two parabolas meet. */
const DRAG_PIECES = 1024;
/** m/s; about where a damper leaves its orifice */
export const SQUEEZE = 0.5;
/** m/s; faster than any shaft on a bike */
const FASTEST = 30;

/**
 * Shaft speed squeezed into −1..1, v/(|v| + 0.5 m/s): nodes are 1 mm/s apart near rest, where friction turns over, and
 * wide apart where the curve is all but straight.
 */
export function squeezed(speed: number): number {
  return speed / (Math.abs(speed) + SQUEEZE);
}

/** The inverse of `squeezed`. */
function speedOf(squeezedSpeed: number): number {
  return (SQUEEZE * squeezedSpeed) / (1 - Math.abs(squeezedSpeed));
}

export function compileBike(bike: Bike): CompiledBike {
  const { frame, rider } = bike.body;
  const rest = springLoads(bike);
  const front = compileEnd(bike.ends.front, rest.front);
  const rear = compileEnd(bike.ends.rear, rest.rear);
  const total = bike.body.mass + front.unsprungMass + rear.unsprungMass;
  return {
    bike,
    front,
    rear,
    total,
    perTotal: 1 / total,
    perFrameMass: 1 / frame.mass,
    perFrameInertia: 1 / frame.inertia,
    frameSlowed: frame.slowed,
    toFront: frame.toFront,
    toRear: frame.toRear,
    toBars: frame.toBars,
    toFeet: frame.toFeet,
    riderMass: rider?.mass ?? 0,
    perRiderMass: rider === undefined ? 0 : 1 / rider.mass,
    perRiderInertia: rider === undefined ? 0 : 1 / rider.inertia,
    riderSlowed: rider?.slowed ?? 0,
    riderBars: rider?.toBars ?? 0,
    riderFeet: rider?.toFeet ?? 0,
    legs: rider?.legs.stiffness ?? 0,
    legsLoss: rider?.legs.damping ?? 0,
    arms: rider?.arms.stiffness ?? 0,
    armsLoss: rider?.arms.damping ?? 0,
    ...asOne(bike.body),
    step: Math.min(stepFor(front, frame, frame.toFront), stepFor(rear, frame, frame.toRear)),
  };
}

/** Momentum and turning momentum of frame and rider, as rates of the body that both make up. */
function asOne({
  mass,
  toFront,
  toRear,
  frame,
  rider,
}: Body): Pick<
  CompiledBike,
  'frameShare' | 'riderShare' | 'frameTurns' | 'riderTurns' | 'apart' | 'bodyToFront' | 'bodyToRear'
> {
  const person = rider?.mass ?? 0;
  const reduced = (frame.mass * person) / mass;
  const between = person === 0 ? 0 : frame.toBars - (rider?.toBars ?? 0); // rider's centre ahead of the frame's
  const inertia = frame.inertia + (rider?.inertia ?? 0) + reduced * between ** 2;
  return {
    frameShare: frame.mass / mass,
    riderShare: person / mass,
    frameTurns: frame.inertia / inertia,
    riderTurns: (rider?.inertia ?? 0) / inertia,
    apart: (reduced * between) / inertia,
    bodyToFront: toFront,
    bodyToRear: toRear,
  };
}

/**
 * s. Of a third of the steps at which Runge–Kutta turns unstable (2.78 ÷ the fastest decay) the longest is taken, so
 * that a knob fully closed is followed as truly as an open one.
 */
const STEPS = [0.001, 0.0005, 0.00025, 0.000125, 0.0000625] as const;
const SAFE = 1.8;

function stepFor(end: CompiledEnd, frame: Frame, arm: number): number {
  const { nodes, pieces, perUnit } = end.drag;
  let steepest = 0;
  for (let i = 0; i <= pieces; i++) {
    const squeeze = Math.abs(end.drag.first + i / perUnit);
    // Slope over the squeezed speed, turned back into one over the speed.
    const slope = (nodes[2 * i + 1]! * perUnit * (1 - squeeze) ** 2) / SQUEEZE;
    if (slope > steepest) steepest = slope;
  }
  const least = Math.min(end.c0, end.c0 + end.bumperFrom * (end.c1 + end.bumperFrom * end.c2));
  const inverse = 1 / end.unsprungMass + 1 / frame.mass + arm ** 2 / frame.inertia;
  const decay = (steepest / least ** 2) * inverse;
  return STEPS.find((step) => step * decay <= SAFE) ?? STEPS.at(-1)!;
}

/** Ends are shared between bikes that differ in the other end only. */
const compiledEnds = new WeakMap<EndModel, { readonly load: number; readonly end: CompiledEnd }>();

/** @param load on its spring standing still on level ground, N at the wheel: there the gas has come to rest */
function compileEnd(end: EndModel, load: number): CompiledEnd {
  const known = compiledEnds.get(end);
  if (known !== undefined && known.load === load) return known.end;
  const { linkage, stops, tyre, pulledIn } = end;
  const stroke = fullStroke(linkage);
  const endRatio = ratioAt(linkage, linkage.travel);
  const bumperLength = stops.bottomLength * endRatio;
  const compiled: CompiledEnd = {
    elastic: elasticTable(end, linkage, stroke, shaftTravel(linkage, restUnder(end, load))),
    drag: dragTable(end),
    c0: linkage.c0,
    c1: linkage.c1,
    c2: linkage.c2,
    bumperFrom: linkage.travel - bumperLength,
    bumper: stops.bottomForce / endRatio / bumperLength ** 3,
    bumperLoss: stops.loss / endRatio,
    hertz: tyre.shape === 'hertz',
    tyreStiffness: tyre.stiffness,
    tyreLoss: tyre.loss,
    unsprungMass: end.unsprungMass,
    perUnsprungMass: 1 / end.unsprungMass,
    ...pulledIn,
  };
  compiledEnds.set(end, { load, end: compiled });
  return compiled;
}

/** Spring and stops: force at the wheel = force at the shaft ÷ ratio. */
function elasticTable(end: EndModel, linkage: Linkage, stroke: number, rest: number): Table {
  const { spring, stops } = end;
  return makeTable(-MARGIN * linkage.travel, (1 + MARGIN) * linkage.travel, ELASTIC_PIECES, (wheel) => {
    const shaft = shaftTravel(linkage, wheel);
    const ratio = ratioAt(linkage, wheel);
    const force = springForce(spring, shaft, rest) + stopForce(stops, stroke, shaft);
    const stiffness = springStiffness(spring, shaft, rest) + stopStiffness(stops, stroke, shaft);
    return [force / ratio, (stiffness - force * ratioSlope(linkage, wheel)) / ratio ** 2];
  });
}

/** Force of damper and friction at the shaft, N, at a shaft speed in m/s, + = compressing. */
export function dragForce(end: EndModel, speed: number): number {
  const { coulomb, blend, viscous } = end.friction;
  const circuit = speed > 0 ? end.compression : end.rebound;
  return damperForce(circuit, speed) + viscous * speed + (coulomb * speed) / Math.hypot(speed, blend);
}

function dragTable(end: EndModel): Table {
  const { coulomb, blend, viscous } = end.friction;
  const widest = squeezed(FASTEST);
  return makeTable(-widest, widest, DRAG_PIECES, (s) => {
    const speed = speedOf(s);
    const circuit = speed > 0 ? end.compression : end.rebound;
    const dry = coulomb === 0 ? 0 : (coulomb * blend ** 2) / Math.hypot(speed, blend) ** 3;
    const slope = damperSlope(circuit, speed) + viscous + dry;
    return [dragForce(end, speed), (slope * SQUEEZE) / (1 - Math.abs(s)) ** 2];
  });
}
