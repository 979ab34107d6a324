/** What a sag that was told says of the spring of a bike without a sheet. */
import type { BikeKind, End } from '../bike/sheet.ts';
import { leastSag } from './bike/end-from-sheet.ts';
import { fullStroke, ratioAt, shockLinkage, wheelTravel } from './bike/linkage.ts';
import { springForce, type AirSpringModel } from './bike/spring.ts';
import { airSpring } from './bike/spring-from-sheet.ts';
import { PRELOAD_PITCH } from './defaults.ts';
import { airPressure, coilRate } from './start-spring.ts';
import { KINDS } from './usual-bikes.ts';

export interface ToldSag {
  readonly end: End;
  /** whose usual travel, stroke and leverage stand in for those of this bike */
  readonly kind: BikeKind;
  /** travel of the fork, stroke of the shock, m; absent: the usual one */
  readonly whole?: number | undefined;
  /** shares of it */
  readonly measured: number;
  readonly wanted: number;
}

/** Gauge pressure that is taken where none was told, Pa; it hardly changes the share. Assumption. */
const USUAL_PRESSURE: Readonly<Record<End, number>> = { front: 5.5e5, rear: 12e5 };

/**
 * The gauge pressure that gives the wanted sag, over the one in the spring. The weight on the end need not be known: with the
 * gas come to rest the force is a straight line in the pressure. Where a negative chamber still pulls the spring in, the sag
 * tells little, and counts as the least that does.
 * @param pressure at which it was measured, gauge Pa
 */
export function pressureShare(told: ToldSag, pressure = USUAL_PRESSURE[told.end]): number {
  const { stroke, from, to, ratio } = shaftOf(told);
  const part = { travel: stroke, spring: { kind: 'air', pressure }, adjusters: {} } as const;
  const spring = airSpring(part, told.end, stroke, from, 0) as AirSpringModel;
  const force = (springForce(spring, from) * ratio(to)) / ratio(from);
  return airPressure(spring, force, to) / pressure;
}

/** Of a coil: the rate that gives the wanted sag with one turn of preload, over its own, and the turns that would do it instead. */
export interface CoilShare {
  readonly rate: number;
  /** signed, + is tighter */
  readonly turns: number;
}

/** @param turns of preload at which it was measured */
export function coilShare(told: ToldSag, turns: number): CoilShare {
  const { from, to, ratio } = shaftOf(told);
  const preload = turns * PRELOAD_PITCH;
  // What it carries per N/m of rate.
  const wanted = ((preload + from) * ratio(to)) / ratio(from);
  return { rate: coilRate(wanted, to, PRELOAD_PITCH), turns: (wanted - to - preload) / PRELOAD_PITCH };
}

/** Shaft travel at both sags, m, and the wheel's per shaft travel there; a fork's is the same all along. */
function shaftOf({ end, kind, whole, measured, wanted }: ToldSag): {
  readonly stroke: number;
  readonly from: number;
  readonly to: number;
  readonly ratio: (shaft: number) => number;
} {
  const usual = KINDS[kind][end];
  const stroke = whole ?? ('stroke' in usual ? usual.stroke : usual.travel);
  const least = leastSag(end, stroke);
  const [from, to] = [Math.max(least, measured) * stroke, Math.max(least, wanted) * stroke];
  if (!('stroke' in usual)) return { stroke, from, to, ratio: () => 1 };
  const linkage = shockLinkage(usual.travel, usual.leverage, usual.stroke);
  const ownStroke = fullStroke(linkage);
  const ratio = (shaft: number): number =>
    ratioAt(linkage, wheelTravel(linkage, (shaft / stroke) * ownStroke));
  return { stroke, from, to, ratio };
}
