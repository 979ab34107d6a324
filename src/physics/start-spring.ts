/** The pressure or the spring rate that gives an end the sag that is wanted. */
import { defined } from '../form/plain-data.ts';
import { preloadBeyond, sagOnRide } from '../bike/end-readings.ts';
import type { BikeSheet, End } from '../bike/sheet.ts';
import { settable } from '../bike/units.ts';
import type { Bike } from './bike/bike.ts';
import { COIL_PRELOAD } from './defaults.ts';
import { KINDS } from './usual-bikes.ts';
import { loadOn } from './bike/end-from-sheet.ts';
import { fullStroke, ratioAt, wheelTravel } from './bike/linkage.ts';
import { springForce, type AirSpringModel } from './bike/spring.ts';

/** What a number rests on: read off this bike, or a default of the program's. */
export type Basis = 'measured' | 'assumption';

export interface SpringStart {
  readonly kind: 'air' | 'coil';
  /** share of the stroke */
  readonly sag: number;
  readonly sagBasis: Basis;
  /** on the end's springs standing still, N at the wheel */
  readonly load: number;
  /** gauge Pa (air) or N/m (coil) that gives that sag */
  readonly model: number;
  /** the maker's starting pressure, Pa, where the sheet has it */
  readonly maker?: number;
  /** what to begin with: the model's where sag was measured, else the maker's, else the model's; inside the maker's limits */
  readonly begin: number;
  readonly now?: number;
  readonly basis: Basis;
  /** the limit that the model's number is beyond */
  readonly limited?: 'min' | 'max';
}

/** @param bike the model of the same sheet */
export function springStart(sheet: BikeSheet, bike: Bike, which: End): SpringStart {
  const part = sheet.ends[which];
  const model = bike.ends[which];
  const sag = part.sagWanted ?? KINDS[sheet.kind][which].sag;
  const load = loadOn(bike.body, which);
  const shaft = sag * fullStroke(model.linkage);
  const force = load * ratioAt(model.linkage, wheelTravel(model.linkage, shaft));
  const base = {
    kind: part.spring.kind,
    sag,
    sagBasis: part.sagWanted === undefined ? ('assumption' as const) : ('measured' as const),
    load,
  };
  if (part.spring.kind === 'coil') {
    const { rate, preload = COIL_PRELOAD } = part.spring;
    const measured = rate !== undefined && sagOnRide(part) !== undefined;
    // What it was measured to carry beats an assumed weight. Preload that was added stands in for rate: it is not kept.
    const carries = springCorrection(sheet, bike, which)?.carries;
    const least = Math.min(preload, part.spring.preloadPerTurn ?? COIL_PRELOAD);
    const needed =
      carries === undefined ? coilRate(force, shaft, preload) : coilRate(carries.force, carries.shaft, least);
    return defined<SpringStart>({
      ...base,
      model: needed,
      maker: undefined,
      begin: settable(needed, sheet.units.rate),
      now: rate,
      basis: measured ? 'measured' : 'assumption',
      limited: undefined,
    });
  }
  const { pressure, pressureMaker, pressureMin = 0, pressureMax = Infinity } = part.spring;
  const needed = airPressure(model.spring as AirSpringModel, force, shaft);
  const inside = Math.min(pressureMax, Math.max(pressureMin, needed));
  const measured = pressure !== undefined && sagOnRide(part) !== undefined;
  return defined<SpringStart>({
    ...base,
    model: needed,
    maker: pressureMaker,
    // What was measured on this bike beats a table for all riders of this weight, inside the maker's limits.
    begin:
      pressureMaker === undefined || measured
        ? settable(inside, sheet.units.pressure, pressureMin, pressureMax)
        : pressureMaker,
    now: pressure,
    basis: measured ? 'measured' : 'assumption',
    limited: needed > pressureMax ? 'max' : needed < pressureMin ? 'min' : undefined,
  });
}

/** What brings a measured sag to the wanted one; SI, + is firmer. */
export interface SpringCorrection {
  /** of the pressure in Pa, or of the preload in m */
  readonly by: number;
  /** of a coil: the rate in N/m that would do it with the preload as it is */
  readonly rate?: number;
  /** of a coil: what it is to carry, N, and at what shaft travel, m; another preload takes another rate for it */
  readonly carries?: { readonly force: number; readonly shaft: number };
}

/**
 * The whole correction by the spring model; undefined where a number is missing. A coil is taken at what it was measured to
 * carry, so no weight is assumed for it.
 * @param bike the model of the same sheet
 */
export function springCorrection(sheet: BikeSheet, bike: Bike, which: End): SpringCorrection | undefined {
  const { rigid, spring, sagWanted } = sheet.ends[which];
  const sagMeasured = sagOnRide(sheet.ends[which]);
  if (rigid === true || sagMeasured === undefined || sagWanted === undefined) return undefined;
  const { linkage } = bike.ends[which];
  if (spring.kind === 'air') {
    if (spring.pressure === undefined) return undefined;
    return { by: springStart(sheet, bike, which).model - spring.pressure };
  }
  const { rate, preload } = spring;
  if (rate === undefined || preload === undefined) return undefined;
  const stroke = fullStroke(linkage);
  const ratio = (sag: number): number => ratioAt(linkage, wheelTravel(linkage, sag * stroke));
  const carried = rate * (preload + sagMeasured * stroke);
  const wanted = (carried * ratio(sagWanted)) / ratio(sagMeasured);
  const shaft = sagWanted * stroke;
  return {
    // What is beyond the most that a collar should be turned is another coil's to carry.
    by: wanted / rate - shaft - (preload - (preloadBeyond(sheet.ends[which]) ?? 0)),
    rate: coilRate(wanted, shaft, preload),
    carries: { force: wanted, shaft },
  };
}

/** Rate in N/m of a coil that carries a force in N at a shaft travel and a preload, both m. */
export function coilRate(force: number, shaft: number, preload: number): number {
  return force / (shaft + preload);
}

/** Gauge pressure in Pa at which an air spring carries a force in N at a shaft travel in m: force is a line in it. */
export function airPressure(spring: AirSpringModel, force: number, shaft: number): number {
  const none = springForce({ ...spring, pressure: 0 }, shaft);
  const some = springForce({ ...spring, pressure: 1e5 }, shaft);
  return (1e5 * (force - none)) / (some - none);
}
