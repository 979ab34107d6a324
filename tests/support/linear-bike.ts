/** Bikes whose every part is a straight line, so that closed forms apply: no stops, no friction, tyres linear. */
import { Matrix } from 'ml-matrix';
import type { Bike, EndModel } from '../../src/physics/bike/bike.ts';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { makeDrive } from '../../src/physics/ride/drive.ts';
import { COORDINATES, restState } from '../../src/physics/bike/equilibrium.ts';
import { simulate } from '../../src/physics/ride/simulate.ts';

export interface LinearEnd {
  /** N/m, N·s/m, N/m, kg */
  readonly spring: number;
  readonly damping?: number;
  readonly tyre: number;
  readonly unsprung: number;
}

export interface LinearBike {
  readonly mass: number;
  readonly inertia: number;
  readonly toFront: number;
  readonly toRear: number;
  readonly front: LinearEnd;
  readonly rear: LinearEnd;
  /** m of travel either way; the springs must not meet an end */
  readonly travel?: number;
}

export function linearBike(parts: LinearBike): Bike {
  const { mass, inertia, toFront, toRear } = parts;
  const end = ({ spring, damping = 0, tyre, unsprung }: LinearEnd): EndModel => ({
    linkage: { travel: parts.travel ?? 10, c0: 1, c1: 0, c2: 0 },
    spring: { kind: 'coil', rate: spring, preload: 0, pitch: 0.001 },
    stops: { bottomLength: 1, bottomForce: 0, topLength: 1, topForce: 0, loss: 0 },
    compression: { orifice: Infinity, stack: Infinity, preload: 0 },
    rebound: { orifice: Infinity, stack: Infinity, preload: 0 },
    friction: { coulomb: 0, blend: 1, viscous: damping },
    tyre: { shape: 'linear', stiffness: tyre, pressure: 1e5, casing: 0, loss: 0 },
    unsprungMass: unsprung,
    pulledIn: { braking: 0, bump: 0, chain: 0 },
    knobs: {},
    shownPerWheel: 1,
  });
  return {
    kind: 'trail',
    body: {
      mass,
      toFront,
      toRear,
      height: 0,
      frame: { mass, inertia, toFront, toRear, toBars: 0, toFeet: 0, slowed: 0 },
      rider: undefined,
    },
    ends: { front: end(parts.front), rear: end(parts.rear) },
    notes: [],
    warnings: [],
  };
}

/** Two equal ends under a body that only heaves: a quarter-car twice. */
export function quarterCar(mass: number, end: LinearEnd, travel?: number): Bike {
  return linearBike({
    mass: 2 * mass,
    inertia: 2 * mass,
    toFront: 1,
    toRear: 1,
    front: end,
    rear: end,
    ...(travel === undefined ? {} : { travel }),
  });
}

/**
 * d(rates)/d(state) of frame and wheels about standing still, 8 × 8, by central differences of the model's own motion over
 * one step too short for anything to change in it. A stiff rider adds nothing.
 */
export function linearised(bike: Bike): Matrix {
  const compiled = compileBike(bike);
  const instant = 1e-10;
  const still = makeDrive({ seconds: instant, wheelbase: 1, step: instant });
  const rest = restState(compiled);
  // Frame and wheels; the coordinates of a rider stand between them and their rates.
  const place = (i: number): number => (i < 4 ? i : i - 4 + COORDINATES);
  const rates = (column: number, by: number): number[] => {
    const y = rest.slice();
    y[place(column)]! += by;
    const { last } = simulate(compiled, still, y, 1);
    const gained = Array.from(
      { length: 4 },
      (_, i) => (last[COORDINATES + i]! - y[COORDINATES + i]!) / instant,
    );
    return [...y.slice(COORDINATES, COORDINATES + 4), ...gained];
  };
  const step = 1e-5;
  const columns = Array.from({ length: 8 }, (_, column) => {
    const up = rates(column, step);
    const down = rates(column, -step);
    return up.map((value, i) => (value - down[i]!) / (2 * step));
  });
  return new Matrix(columns).transpose();
}
