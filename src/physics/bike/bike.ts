/**
 * The half-bike: a frame that heaves and pitches on two ends, each with a wheel and a tyre, and a rider who stands on it
 * on legs and arms. SI throughout.
 */
import type { BikeKind, Circuit, End } from '../../bike/sheet.ts';
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
  /** how much of a backward pull at the ground presses this end in, N at the wheel per N of pull */
  readonly pulledIn: {
    /** of the brake: along the fork's slope; by the anti-rise in the rear */
    readonly braking: number;
    /** of the slope of a bump, which pulls at the axle */
    readonly bump: number;
    /** of the chain's pull, which works the other way: 0 in front, the anti-squat in the rear */
    readonly chain: number;
  };
  readonly knobs: Readonly<Partial<Record<Circuit, Knob>>>;
  /** travel in a mechanic's millimetres per vertical wheel travel: along the fork in front, at the wheel in the rear */
  readonly shownPerWheel: number;
}

interface SpringDamper {
  /** N/m */
  readonly stiffness: number;
  /** N·s/m */
  readonly damping: number;
}

/** The frame and what moves with it: feet and shins on the pedals, hands on the bars. */
export interface Frame {
  /** kg */
  readonly mass: number;
  /** pitch inertia about its own centre of mass, kg·m² */
  readonly inertia: number;
  /** its centre of mass to the front and to the rear axle, horizontally, m */
  readonly toFront: number;
  readonly toRear: number;
  /** hands and feet ahead (+) of its centre of mass, m */
  readonly toBars: number;
  readonly toFeet: number;
  /** kg·m: what is slowed down, each mass by its height, as far as it turns the frame; the wheels count here */
  readonly slowed: number;
}

/** The rest of the rider, who heaves and pitches on legs, which only push, and on arms. */
export interface Rider {
  /** kg */
  readonly mass: number;
  /** kg·m², about the rider's own centre of mass */
  readonly inertia: number;
  /** hands and feet ahead (+) of the rider's centre of mass, m */
  readonly toBars: number;
  readonly toFeet: number;
  readonly legs: SpringDamper;
  readonly arms: SpringDamper;
  /** kg·m: mass times how high above the place where the rider braces it is slowed down */
  readonly slowed: number;
}

export interface Body {
  /** rider and everything above the springs, kg */
  readonly mass: number;
  /** its centre of mass to the front and to the rear axle, horizontally, m */
  readonly toFront: number;
  readonly toRear: number;
  /** all masses, wheels too, each by its height, for each kg above the springs, m: what braking shifts */
  readonly height: number;
  readonly frame: Frame;
  /** undefined: the rider is a stiff part of the frame, for comparing with closed forms */
  readonly rider: Rider | undefined;
}

export interface Bike {
  readonly kind: BikeKind;
  readonly body: Body;
  readonly ends: Readonly<Record<End, EndModel>>;
  /** what the sheet and the model do not agree on, and what had to be assumed: sentences */
  readonly notes: readonly string[];
  /** what makes every number doubtful and is read before any: sentences */
  readonly warnings: readonly string[];
}

export const GRAVITY = 9.80665; // m/s², exactly (3rd general conference on weights and measures, 1901)
