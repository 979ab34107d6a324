/** Bikes whose every part is a straight line, so that closed forms apply: no stops, no friction, tyres linear. */
import { Matrix } from 'ml-matrix';
import type { Bike, EndModel } from '../../src/dynamics/bike.ts';
import { compileBike } from '../../src/dynamics/compile.ts';
import type { Drive } from '../../src/dynamics/drive.ts';
import { restState } from '../../src/dynamics/equilibrium.ts';
import { accelerate } from '../../src/dynamics/motion.ts';

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
    spring: { kind: 'coil', rate: spring, preload: 0 },
    stops: { bottomLength: 1, bottomForce: 0, topLength: 1, topForce: 0, loss: 0 },
    compression: { orifice: Infinity, stack: Infinity },
    rebound: { orifice: Infinity, stack: Infinity },
    friction: { coulomb: 0, blend: 1, viscous: damping },
    tyre: { shape: 'linear', stiffness: tyre, pressure: 1e5, casing: 0, loss: 0 },
    unsprungMass: unsprung,
    knobs: {},
    shownPerWheel: 1,
  });
  return {
    kind: 'trail',
    body: { mass, inertia, toFront, toRear, height: 0, toBars: 0 },
    ends: { front: end(parts.front), rear: end(parts.rear) },
    notes: [],
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

/** d(rates)/d(state) about standing still, 8 × 8, by central differences of the model's own equations of motion. */
export function linearised(bike: Bike): Matrix {
  const compiled = compileBike(bike);
  const still: Drive = {
    step: 1,
    steps: 0,
    roadFront: new Float64Array(1),
    roadRear: new Float64Array(1),
    roadFrontRate: new Float64Array(1),
    roadRearRate: new Float64Array(1),
    gravity: new Float64Array([9.80665]),
    braking: new Float64Array(1),
  };
  const rest = restState(compiled);
  const out = new Float64Array(8);
  const rates = (column: number, by: number): number[] => {
    const y = rest.slice();
    y[column]! += by;
    accelerate(compiled, y, still, 0, out);
    return [...y.slice(4), ...out.slice(0, 4)];
  };
  const step = 1e-5;
  const columns = Array.from({ length: 8 }, (_, column) => {
    const up = rates(column, step);
    const down = rates(column, -step);
    return up.map((value, i) => (value - down[i]!) / (2 * step));
  });
  return new Matrix(columns).transpose();
}
