/**
 * A bike made ready for the inner loop: what each end does at rest as a table over wheel travel, what it does against
 * speed as a table over shaft speed. Compiled once a bike; a run then allocates nothing but its trace.
 */
import type { Bike, Body, EndModel } from './bike.ts';
import { damperForce, damperSlope } from './damper.ts';
import { fullStroke, ratioAt, ratioSlope, shaftTravel, type Linkage } from './linkage.ts';
import { springForce, springStiffness } from './spring.ts';
import { stopForce, stopStiffness } from './stops.ts';
import { makeTable, type Table } from './table.ts';

export interface CompiledEnd {
  /** elastic force at the wheel, N, over vertical wheel travel, m */
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
}

export interface CompiledBike extends Body {
  readonly bike: Bike;
  readonly front: CompiledEnd;
  readonly rear: CompiledEnd;
}

/** Wheel travel past each end of the stroke that the table covers, as a share of the travel. */
const MARGIN = 0.08;
const ELASTIC_PIECES = 512;
/** Even, so that a node stands at rest, where the damper's two parabolas meet. */
const DRAG_PIECES = 1024;
/** m/s; about where a damper leaves its orifice */
const SQUEEZE = 0.5;
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
  return {
    bike,
    ...bike.body,
    front: compileEnd(bike.ends.front),
    rear: compileEnd(bike.ends.rear),
  };
}

function compileEnd(end: EndModel): CompiledEnd {
  const { linkage, stops, tyre } = end;
  const stroke = fullStroke(linkage);
  const endRatio = ratioAt(linkage, linkage.travel);
  const bumperLength = stops.bottomLength * endRatio;
  return {
    elastic: elasticTable(end, linkage, stroke),
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
  };
}

/** Spring and stops at rest: force at the wheel = force at the shaft ÷ ratio. */
function elasticTable(end: EndModel, linkage: Linkage, stroke: number): Table {
  const force = (shaft: number): number =>
    springForce(end.spring, shaft) + stopForce(end.stops, stroke, shaft);
  const stiffness = (shaft: number): number =>
    springStiffness(end.spring, shaft) + stopStiffness(end.stops, stroke, shaft);
  return makeTable(
    -MARGIN * linkage.travel,
    (1 + MARGIN) * linkage.travel,
    ELASTIC_PIECES,
    (wheel) => force(shaftTravel(linkage, wheel)) / ratioAt(linkage, wheel),
    (wheel) => {
      const shaft = shaftTravel(linkage, wheel);
      const ratio = ratioAt(linkage, wheel);
      return (stiffness(shaft) - force(shaft) * ratioSlope(linkage, wheel)) / ratio ** 2;
    },
  );
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
  return makeTable(
    -widest,
    widest,
    DRAG_PIECES,
    (s) => dragForce(end, speedOf(s)),
    (s) => {
      const speed = speedOf(s);
      const circuit = speed > 0 ? end.compression : end.rebound;
      const dry = coulomb === 0 ? 0 : (coulomb * blend ** 2) / Math.hypot(speed, blend) ** 3;
      return ((damperSlope(circuit, speed) + viscous + dry) * SQUEEZE) / (1 - Math.abs(s)) ** 2;
    },
  );
}
