/** What numbers of a sheet come to: sag on a ride, preload beyond the usual, tyre pressure for a weight. */
import type { EndSheet, BikeSheet, End } from './sheet.ts';
import { siPer } from './units.ts';

/**
 * @returns share of the travel; undefined where nothing was measured, or where it was with the lever closed or without
 * the kit: then it says nothing of how the bike sags on a ride
 */
export function sagOnRide({ sagMeasured, sagBasis }: EndSheet): number | undefined {
  return sagBasis?.lever === 'closed' || sagBasis?.kit === 'without' ? undefined : sagMeasured;
}

/** What a collar is turned at most where the maker says nothing, m: two to three turns. Common practice, no source. */
export const USUAL_PRELOAD = 0.003;

/** Preload beyond what the maker allows, or beyond the usual, m; undefined where there is no coil or no number. */
export function preloadBeyond({ rigid, unsaid, spring }: EndSheet): number | undefined {
  if (rigid === true || unsaid === true || spring.kind !== 'coil' || spring.preload === undefined)
    return undefined;
  return Math.max(0, spring.preload - (spring.preloadMax ?? USUAL_PRELOAD));
}

/**
 * How much more the end would sag with that preload wound back, as a share of its travel; undefined where the stroke is
 * not known. The leverage is taken as even between the two.
 */
export function sagHeldUp(part: EndSheet, end: 'front' | 'rear'): number | undefined {
  const beyond = preloadBeyond(part);
  const stroke = part.stroke ?? (end === 'front' ? part.travel : undefined);
  return beyond === undefined || stroke === undefined || !(stroke > 0) ? undefined : beyond / stroke;
}

/** Pressures in psi by the rider's weight in kg, with kit; `low` and `high` in percent of them: beyond is far off. */
export interface TyreForMass {
  readonly low: number;
  readonly high: number;
  /** by rising weight, two at least */
  readonly rows: readonly { readonly kg: number; readonly front: number; readonly rear: number }[];
}

interface TyreByMass {
  readonly is: 'low' | 'usual' | 'high';
  /** Pa */
  readonly usual: number;
  /** percent of the usual pressure by which it is off */
  readonly deviation: number;
}

/** @returns undefined where the sheet has no pressure or no weight, or the pack no figures */
export function tyreByMass(sheet: BikeSheet, end: End, by: TyreForMass | undefined): TyreByMass | undefined {
  const now = sheet.ends[end].tyre?.now;
  const usual = usualTyre(sheet.riderMass, end, by);
  if (now === undefined || usual === undefined || by === undefined) return undefined;
  const share = (100 * now) / usual;
  return {
    is: share < by.low ? 'low' : share > by.high ? 'high' : 'usual',
    usual,
    deviation: share - 100,
  };
}

/** Pa; undefined where the weight is not known, or the pack has no figures. */
export function usualTyre(
  mass: number | undefined,
  end: End,
  by: TyreForMass | undefined,
): number | undefined {
  return mass === undefined || by === undefined ? undefined : usualAt(mass, end, by.rows) * siPer('psi');
}

/** psi; straight between two rows, and on along the last two beyond them. */
function usualAt(mass: number, end: End, rows: TyreForMass['rows']): number {
  const above = rows.findIndex(({ kg }) => kg >= mass);
  const at = above < 0 ? rows.length - 1 : Math.max(1, above);
  const [from, to] = [rows[at - 1]!, rows[at]!];
  return from[end] + ((to[end] - from[end]) * (mass - from.kg)) / (to.kg - from.kg);
}
