/** The tyre pressure that usually carries a rider of this weight, by the figures of the pack, and what is far off it. */
import type { BikeSheet, End } from './sheet.ts';
import { siPer } from './units.ts';

/** Pressures in psi by the rider's weight in kg, with kit; `low` and `high` in percent of them: beyond is far off. */
export interface TyreForMass {
  readonly low: number;
  readonly high: number;
  /** by rising weight, two at least */
  readonly rows: readonly { readonly kg: number; readonly front: number; readonly rear: number }[];
}

export interface TyreByMass {
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
