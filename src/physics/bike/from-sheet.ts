/**
 * A bike sheet turned into the model. Every number of the sheet is used; what it does not say comes from `defaults.ts`,
 * what it says twice (pressure and sag) is used to find what it cannot say (piston area, load share).
 */
import { ENDS, type BikeKind, type BikeSheet, type End } from '../../bike/sheet.ts';
import { GRAVITY, type Bike, type EndModel } from './bike.ts';
import { bodyOf } from './body-from-sheet.ts';
import { COIL_PRELOAD, PRELOAD_PITCH, RIDER } from '../defaults.ts';
import { defaultSheet, KINDS, modelled } from '../usual-bikes.ts';
import { endOf } from './end-from-sheet.ts';
import type { FittedDamper } from '../fit.ts';
import { restTravel } from './equilibrium.ts';
import {
  forkLinkage,
  fullStroke,
  ratioAt,
  shaftTravel,
  shockLinkage,
  wheelTravel,
  type Linkage,
} from './linkage.ts';
import { springForce } from './spring.ts';

/** Dampers fitted to measured curves, by end; see `fitDampers`. */
export type Fits = Readonly<Partial<Record<End, FittedDamper>>>;

export function defaultBike(kind: BikeKind): Bike {
  return bikeFromSheet(defaultSheet(kind));
}

/** @param fits what `fitDampers(sheet)` gave, when the sheet has measured damper curves */
export function bikeFromSheet(given: BikeSheet, fits: Fits = {}): Bike {
  const sheet = modelled(given);
  const notes: string[] = ENDS.flatMap((end) =>
    given.ends[end].rigid === true
      ? ['The model has no rigid end: a usual rear suspension stands in for this one.']
      : given.ends[end].travel === 0
        ? [`The ${end} travel is not on the sheet: that of a usual ${sheet.kind} bike was taken.`]
        : [],
  );
  const kind = KINDS[sheet.kind];
  const linkages: Record<End, Linkage> = {
    front: forkLinkage(sheet.ends.front.travel, sheet.geometry?.headAngle ?? kind.headAngle),
    rear: shockLinkage(
      sheet.ends.rear.travel,
      sheet.ends.rear.leverage ?? kind.rear.leverage,
      sheet.ends.rear.stroke ??
        (sheet.ends.rear.leverage === undefined
          ? (kind.rear.stroke * sheet.ends.rear.travel) / kind.rear.travel
          : undefined),
    ),
  };
  const body = bodyOf(sheet, (mass) => frontShare(sheet, linkages, mass, notes));
  const end = (which: End): EndModel => endOf(sheet, which, linkages[which], body, notes, fits[which]);
  const bike: Bike = {
    kind: sheet.kind,
    body,
    ends: { front: end('front'), rear: end('rear') },
    notes,
    warnings: [],
  };
  return { ...bike, warnings: ENDS.flatMap((which) => tooDeep(bike, which)) };
}

/** Beyond this share of its stroke an end has too little left to ride on. Judgement. */
const TOO_DEEP = 0.5;

function tooDeep(bike: Bike, which: End): string[] {
  const { linkage } = bike.ends[which];
  const share = shaftTravel(linkage, restTravel(bike, which)) / fullStroke(linkage);
  if (share <= TOO_DEEP) return [];
  return [
    `With the numbers of its sheet the ${which} rests ${Math.round(100 * share)} % into its travel. Nobody rides that: check spring, sag and rider weight first; the numbers below are worth little.`,
  ];
}

/** A coil whose rate and sag are both known says how much of the weight stands on it. */
function frontShare(sheet: BikeSheet, linkages: Record<End, Linkage>, mass: number, notes: string[]): number {
  for (const which of ['rear', 'front'] as const) {
    const { spring, sagMeasured } = sheet.ends[which];
    if (spring.kind !== 'coil' || spring.rate === undefined || sagMeasured === undefined) continue;
    const linkage = linkages[which];
    const shaft = sagMeasured * fullStroke(linkage);
    const force = springForce(
      { kind: 'coil', rate: spring.rate, preload: spring.preload ?? COIL_PRELOAD, pitch: PRELOAD_PITCH },
      shaft,
    );
    const load = force / ratioAt(linkage, wheelTravel(linkage, shaft)) / (mass * GRAVITY);
    const share = which === 'front' ? load : 1 - load;
    const kept = Math.min(RIDER.frontShareMost, Math.max(RIDER.frontShareLeast, share));
    if (kept !== share)
      notes.push(
        `The ${which} coil at its measured sag would carry ${Math.round(load * 100)} % of the weight; check rate, sag and rider weight. Counted with ${Math.round((which === 'front' ? kept : 1 - kept) * 100)} %.`,
      );
    return kept;
  }
  return RIDER.frontShare;
}
