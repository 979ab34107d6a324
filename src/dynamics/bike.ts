/** The half-bike: a sprung body that heaves and pitches on two ends, each with a wheel and a tyre. SI throughout. */
import type { BikeKind, Circuit, End } from '../bike/sheet.ts';
import type { DamperCircuit } from './damper.ts';
import type { Linkage } from './linkage.ts';
import type { SpringModel } from './spring.ts';
import type { Stops } from './stops.ts';
import type { Tyre } from './tyre.ts';

interface Friction {
  /** dry friction at the shaft, N, smoothed to coulomb·v/√(v² + blend²) so that it has a slope at rest; at rest it
   * therefore creeps instead of holding, within `blend` of standing still */
  readonly coulomb: number;
  /** m/s */
  readonly blend: number;
  /** drag of seals and oil that grows with speed, N·s/m at the shaft */
  readonly viscous: number;
}

/** A knob of the bike: clicks from fully closed, and what one click multiplies its coefficient by. */
export interface Knob {
  readonly range: number;
  /** undefined when nobody has counted */
  readonly now: number | undefined;
  readonly ratio: number;
}

export interface EndModel {
  readonly linkage: Linkage;
  readonly spring: SpringModel;
  readonly stops: Stops;
  readonly compression: DamperCircuit;
  readonly rebound: DamperCircuit;
  readonly friction: Friction;
  readonly tyre: Tyre;
  /** wheel and what moves with it, kg */
  readonly unsprungMass: number;
  readonly knobs: Readonly<Partial<Record<Circuit, Knob>>>;
  /** travel in a mechanic's millimetres per vertical wheel travel: along the fork in front, at the wheel in the rear */
  readonly shownPerWheel: number;
}

export interface Body {
  /** rider and everything above the springs, kg */
  readonly mass: number;
  /** pitch inertia about its centre of mass, kg·m² */
  readonly inertia: number;
  /** centre of mass to the front and to the rear axle, horizontally, m */
  readonly toFront: number;
  readonly toRear: number;
  /** centre of mass of rider and bike above the ground, m */
  readonly height: number;
  /** hands ahead of the centre of mass, m */
  readonly toBars: number;
}

export interface Bike {
  readonly kind: BikeKind;
  readonly body: Body;
  readonly ends: Readonly<Record<End, EndModel>>;
  /** what the sheet and the model do not agree on, and what had to be assumed: sentences */
  readonly notes: readonly string[];
}

export const GRAVITY = 9.80665; // m/s², exactly (3rd general conference on weights and measures, 1901)
