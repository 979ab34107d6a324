/**
 * A bike made ready for the inner loop: the elastic force at each wheel as a table over wheel travel, the dampers' roots
 * prepared. Compiled once a bike; a run then allocates nothing but its trace.
 */
import type { Bike, EndModel } from './bike.ts';
import { damperRoot, type DamperRoot } from './damper.ts';
import { fullStroke, ratioAt, shaftTravel } from './linkage.ts';
import { springForce } from './spring.ts';
import { stopForce } from './stops.ts';

/** Wheel travel past each end of the stroke that the table covers, as a share of the travel. */
const MARGIN = 0.08;
const PIECES = 1024;

export interface CompiledEnd {
  /** wheel travel at the first node, m, and nodes a metre */
  readonly first: number;
  readonly perMetre: number;
  readonly last: number;
  /** pairs: elastic force at the wheel, N, and its slope times the node spacing, N */
  readonly table: Float64Array;
  readonly c0: number;
  readonly c1: number;
  readonly c2: number;
  readonly compression: DamperRoot;
  readonly rebound: DamperRoot;
  readonly coulomb: number;
  readonly blendSquared: number;
  readonly viscous: number;
  /** wheel travel where the bumper begins, m; its force at the wheel is bumper·depth³ in wheel travel */
  readonly bumperFrom: number;
  readonly bumper: number;
  readonly bumperLoss: number;
  readonly hertz: boolean;
  readonly tyreStiffness: number;
  readonly tyreLoss: number;
  readonly unsprungMass: number;
}

export interface CompiledBike {
  readonly bike: Bike;
  readonly mass: number;
  readonly inertia: number;
  readonly toFront: number;
  readonly toRear: number;
  readonly height: number;
  readonly toBars: number;
  readonly front: CompiledEnd;
  readonly rear: CompiledEnd;
}

export function compileBike(bike: Bike): CompiledBike {
  const { mass, inertia, toFront, toRear, height, toBars } = bike.body;
  return {
    bike,
    mass,
    inertia,
    toFront,
    toRear,
    height,
    toBars,
    front: compileEnd(bike.ends.front),
    rear: compileEnd(bike.ends.rear),
  };
}

/** Force of springs and stops at the wheel at rest, N, at a vertical wheel travel in m. */
export function elasticWheelForce(end: EndModel, wheel: number): number {
  const shaft = shaftTravel(end.linkage, wheel);
  const force = springForce(end.spring, shaft) + stopForce(end.stops, fullStroke(end.linkage), shaft);
  return force / ratioAt(end.linkage, wheel);
}

function compileEnd(end: EndModel): CompiledEnd {
  const { linkage, stops, tyre, friction } = end;
  const first = -MARGIN * linkage.travel;
  const spacing = ((1 + 2 * MARGIN) * linkage.travel) / PIECES;
  const force = new Float64Array(PIECES + 3);
  for (let i = 0; i < force.length; i++) force[i] = elasticWheelForce(end, first + (i - 1) * spacing);
  const table = new Float64Array(2 * (PIECES + 1));
  for (let i = 0; i <= PIECES; i++) {
    table[2 * i] = force[i + 1]!;
    table[2 * i + 1] = (force[i + 2]! - force[i]!) / 2;
  }
  const endRatio = ratioAt(linkage, linkage.travel);
  const bumperLength = stops.bottomLength * endRatio;
  return {
    first,
    perMetre: 1 / spacing,
    last: PIECES,
    table,
    c0: linkage.c0,
    c1: linkage.c1,
    c2: linkage.c2,
    compression: damperRoot(end.compression),
    rebound: damperRoot(end.rebound),
    coulomb: friction.coulomb,
    blendSquared: friction.blend ** 2,
    viscous: friction.viscous,
    bumperFrom: linkage.travel - bumperLength,
    bumper: stops.bottomForce / endRatio / bumperLength ** 3,
    bumperLoss: stops.loss / endRatio,
    hertz: tyre.shape === 'hertz',
    tyreStiffness: tyre.stiffness,
    tyreLoss: tyre.loss,
    unsprungMass: end.unsprungMass,
  };
}

/** The table's value at a wheel travel in m, by cubic Hermite pieces; beyond its ends along the last slope. */
export function tabulated(end: CompiledEnd, wheel: number): number {
  const at = (wheel - end.first) * end.perMetre;
  if (at <= 0) return end.table[0]! + end.table[1]! * at;
  if (at >= end.last) return end.table[2 * end.last]! + end.table[2 * end.last + 1]! * (at - end.last);
  const i = Math.floor(at);
  const t = at - i;
  const j = 2 * i;
  const f = end.table[j]!;
  const rise = end.table[j + 2]! - f;
  const s = end.table[j + 1]!;
  const s1 = end.table[j + 3]!;
  return f + t * (s + t * (3 * rise - 2 * s - s1 + t * (s + s1 - 2 * rise)));
}
