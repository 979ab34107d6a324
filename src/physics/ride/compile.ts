/**
 * A bike made ready for the inner loop: what each end does at rest as a table over wheel travel, what it does against
 * speed as a table over shaft speed. Compiled once a bike; a run then allocates nothing but its trace.
 */
import type { Bike, Body, EndModel, Frame } from '../bike/bike.ts';
import { springLoads } from '../bike/equilibrium.ts';
import { ratioAt } from '../bike/linkage.ts';
import type { Table } from '../table.ts';
import { dragOf, elasticTable, type Drag } from './end-tables.ts';

export interface CompiledEnd extends Drag {
  /** elastic force of quick movements at the wheel, N, over vertical wheel travel, m */
  readonly elastic: Table;
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
  const least = Math.min(end.c0, end.c0 + end.bumperFrom * (end.c1 + end.bumperFrom * end.c2));
  const inverse = 1 / end.unsprungMass + 1 / frame.mass + arm ** 2 / frame.inertia;
  const decay = (end.steepest / least ** 2) * inverse;
  return STEPS.find((step) => step * decay <= SAFE) ?? STEPS.at(-1)!;
}

/** Ends are shared between bikes that differ in the other end only. */
const compiledEnds = new WeakMap<EndModel, { readonly load: number; readonly end: CompiledEnd }>();

/** @param load on its spring standing still on level ground, N at the wheel: there the gas has come to rest */
function compileEnd(end: EndModel, load: number): CompiledEnd {
  const known = compiledEnds.get(end);
  if (known !== undefined && known.load === load) return known.end;
  const { linkage, stops, tyre, pulledIn } = end;
  const endRatio = ratioAt(linkage, linkage.travel);
  const bumperLength = stops.bottomLength * endRatio;
  const compiled: CompiledEnd = {
    elastic: elasticTable(end, load),
    ...dragOf(end),
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
