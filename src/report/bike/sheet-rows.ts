/** Where everything on a bike stands, where the maker starts, and how far each thing still goes: rows for a table. */
import type { ChangeUnit } from '../../bike/change.ts';
import { DAMPER } from '../../bike/circuits.ts';
import { defined } from '../../form/plain-data.ts';
import type { Row, Shown } from '../../bike/row.ts';
import { isAlone, rowsOf } from '../../bike/settings.ts';
import type { BikeSheet, End } from '../../bike/sheet.ts';
import { dimensionOf, inUnit, siPer, type Unit } from '../../bike/units.ts';

export interface SheetRow {
  /** absent for the whole bike */
  readonly end?: End;
  readonly setting: string;
  readonly name: string;
  /** in `unit`; absent when nobody wrote it down */
  readonly now?: number;
  readonly unit: string;
  /** the name of where it stands, for what stands at named positions */
  readonly position?: string;
  /** how far it goes at all, for what is counted */
  readonly of?: number;
  /** the maker's starting sheet, or what is wanted */
  readonly maker?: number;
  readonly wanted?: number;
  /** how far it can go down (or closed) and up (or open) from where it stands, in `unit` */
  readonly down?: number;
  readonly up?: number;
}

export function sheetRows(sheet: BikeSheet): SheetRow[] {
  return rowsOf(sheet.settings).flatMap((row): SheetRow[] => {
    const said = row.shown(sheet);
    if (said === undefined) return [];
    const { names, ...numbers } = said;
    return [
      defined<SheetRow>({
        end: row.end,
        setting: row.setting,
        name: titleOf(sheet, row),
        ...empty,
        ...numbers,
        position: said.now === undefined ? undefined : names?.[said.now],
        ...room(sheet, row, said),
      }),
    ];
  });
}

/** The name of a row in a table; one rebound knob is the rebound knob. */
export function titleOf(sheet: BikeSheet, { title, end, circuit }: Row): string {
  return circuit !== undefined && isAlone(sheet, end!, circuit) ? DAMPER[circuit].alone!.title : title;
}

const empty = { now: undefined, of: undefined, maker: undefined, wanted: undefined };

/** Only what the bike or its maker limits: what no bike goes beyond is no room to speak of. */
function room(
  sheet: BikeSheet,
  row: Row,
  { unit, now, names }: Shown,
): { down: number | undefined; up: number | undefined } {
  const none = { down: undefined, up: undefined };
  if (now === undefined || row.units.length === 0 || names !== undefined) return none;
  const dial = row.dial(sheet, { setting: row.setting, unit: unit as ChangeUnit });
  if ('message' in dial || dial.now === undefined) return none;
  const round = (value: number): number =>
    dimensionOf(unit) === undefined ? value : inUnit(value * siPer(unit as Unit), unit as Unit);
  return {
    down: dial.limited.min ? Math.max(0, round(dial.now - dial.min)) : undefined,
    up: dial.limited.max ? Math.max(0, round(dial.max - dial.now)) : undefined,
  };
}
