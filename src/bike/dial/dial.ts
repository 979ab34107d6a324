/** What turning one setting of a sheet takes: where it stands, how far it goes, and the sheet with it turned. */
import type { Reading } from '../circuits.ts';
import { defined } from '../../form/plain-data.ts';
import type { Range } from '../form/limits.ts';
import type { OwnUnit } from '../own-setting.ts';
import type { BikeSheet, End, EndSheet } from '../sheet.ts';

export type ChangeUnit = OwnUnit;

export interface Dial {
  readonly setting: string;
  readonly unit: ChangeUnit;
  /** where it stands, in `unit`; absent when nobody wrote it down */
  readonly now?: number;
  /** the stop it stands at, where that is known though nobody counted */
  readonly at?: 'min' | 'max';
  /** the stops or the maker's limits, in `unit`; what no bike goes beyond where the sheet says nothing */
  readonly min: number;
  readonly max: number;
  /** what the two ends are, for messages */
  readonly minIs: string;
  readonly maxIs: string;
  /** whether the bike or its maker sets that end; otherwise it is only what no bike goes beyond */
  readonly limited: { readonly min: boolean; readonly max: boolean };
  /** the smallest step that can be set, in `unit` (judgement: what a gauge or a hand can do) */
  readonly grain: number;
  /** how to find out where it stands */
  readonly toFindOut: string;
  /** the names of what it can be set to, by number; absent for what is counted */
  readonly names?: readonly string[];
  /** the sheet with it set to a value in `unit`; what that makes untrue is taken off */
  readonly turned: (to: number) => BikeSheet;
  /** what of the sheet turning it makes untrue and takes off */
  readonly stale: readonly Reading[];
}

export interface NoDial {
  readonly message: string;
  readonly remedy: string;
  /** true when the sheet does not say whether the bike has it: it may have */
  readonly unsaid?: true;
  /** true when the bike cannot have it at all, such as a rear spring on a hardtail */
  readonly unfit?: true;
}

/** A setting in the unit to speak in. */
export interface Of {
  readonly setting: string;
  readonly unit: ChangeUnit;
}

/** How a setting is turned on any sheet, but for how to find out where it stands, which its row says. */
export type Made = (sheet: BikeSheet, of: Of) => Turn | NoDial;

export type Turn = Omit<Dial, 'toFindOut'>;

const GRAIN: Readonly<Record<ChangeUnit, number>> = {
  clicks: 1,
  spacers: 1,
  positions: 1,
  psi: 0.5,
  bar: 0.05,
  kPa: 5,
  'N/mm': 1,
  'lb/in': 5,
  mm: 0.5,
  in: 0.02,
  turns: 0.25,
  degrees: 0.5,
};

export const CHANGE_UNITS = Object.keys(GRAIN) as readonly ChangeUnit[];

export function grainOf(unit: ChangeUnit): number {
  return GRAIN[unit];
}

/** What a dial says in words, and what makes the sheet with it turned: from a value in SI. */
interface Rest {
  readonly minIs: string;
  readonly maxIs: string;
  readonly limited: Dial['limited'];
  readonly at?: Dial['at'] | undefined;
  readonly stale: readonly Reading[];
  readonly grain?: number;
  readonly names?: readonly string[] | undefined;
  readonly put: (si: number) => BikeSheet;
}

/** @param si so much of SI is one of the unit; the numbers after it are in SI */
export function dial(
  { setting, unit }: Of,
  si: number,
  now: number | undefined,
  [min, max]: Range,
  { put, at, grain, names, ...rest }: Rest,
): Turn {
  return {
    setting,
    unit,
    ...(now === undefined ? {} : { now: tidy(now / si) }),
    ...(at === undefined || now !== undefined ? {} : { at }),
    min: tidy(min / si),
    max: tidy(max / si),
    grain: grain ?? GRAIN[unit],
    ...(names === undefined ? {} : { names }),
    ...rest,
    turned: (to) => put(to * si),
  };
}

/** With what its row says. */
export function dialWith(find: string, turn: Turn | NoDial): Dial | NoDial {
  return 'message' in turn ? turn : { ...turn, toFindOut: find };
}

/** Nine digits: enough for any gauge, without the dust that changing units leaves. */
function tidy(value: number): number {
  return Number(value.toPrecision(9));
}

/** Those of the readings that the sheet has. */
export function readings(sheet: BikeSheet, end: End, names: readonly Reading[]): Reading[] {
  const { sagMeasured, travelUsed } = sheet.ends[end];
  return names.filter((name) => (name === 'travel-used' ? travelUsed : sagMeasured) !== undefined);
}

/** The sheet with something of an end changed, without the readings that this makes untrue. */
export function withEnd(
  sheet: BikeSheet,
  end: End,
  stale: readonly Reading[],
  change: Partial<EndSheet>,
): BikeSheet {
  const { sagMeasured, travelUsed, ...kept } = sheet.ends[end];
  const next = defined<EndSheet>({
    ...kept,
    sagMeasured: stale.includes('sag.measured') ? undefined : sagMeasured,
    travelUsed: stale.includes('travel-used') ? undefined : travelUsed,
    ...change,
  });
  return { ...sheet, ends: { ...sheet.ends, [end]: next } };
}
