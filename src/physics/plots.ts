/** Plain arrays to plot; the printing is done elsewhere. */
import type { End } from '../bike/sheet.ts';
import type { Bike } from './bike/bike.ts';
import { compileBike } from './ride/compile.ts';
import { dragForce } from './ride/end-tables.ts';
import { makeGround, runScenario } from './metrics/measure.ts';

export interface ForceCurve {
  /** shaft speeds, m/s: below zero the end comes back (rebound), above zero it is pressed in */
  readonly speeds: readonly number[];
  /** N at the shaft, + = against being pressed in; damper and friction, no spring */
  readonly forces: readonly number[];
}

/** @param fastest m/s either way */
export function forceCurve(bike: Bike, end: End, fastest = 2, points = 81): ForceCurve {
  const speeds = Array.from({ length: points }, (_, i) => -fastest + (2 * fastest * i) / (points - 1));
  return { speeds, forces: speeds.map((v) => dragForce(bike.ends[end], v)) };
}

export interface TravelCurve {
  /** s from the start of the run */
  readonly times: readonly number[];
  /** mm of travel from full extension: along the fork in front, at the wheel in the rear */
  readonly travel: readonly number[];
  /** mm at which the end stands still */
  readonly sag: number;
  /** mm of full travel */
  readonly full: number;
  /** s at which each bump, or the event, begins */
  readonly hits: readonly number[];
}

/** s between points of it */
const EVERY = 0.005;

/** Over a row of bumps. */
export function travelCurve(bike: Bike, end: End): TravelCurve {
  const { trace, marks, shown } = runScenario(compileBike(bike), makeGround(bike), 'row');
  const times: number[] = [];
  const travel: number[] = [];
  const stride = Math.max(1, Math.round(EVERY / trace.interval));
  for (let i = 0; i < trace.samples; i += stride) {
    times.push(i * trace.interval);
    travel.push(trace[end].travel[i]! * shown[end]);
  }
  return {
    times,
    travel,
    sag: trace[end].travel[0]! * shown[end],
    full: bike.ends[end].linkage.travel * shown[end],
    hits: marks[end],
  };
}
