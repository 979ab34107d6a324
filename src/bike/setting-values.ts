/**
 * Everything that stands somewhere on a bike, by name, in the units of its sheet: what a log keeps of it. The names are
 * those of the settings table: a coil's rate and preload are two things, and so is what was read off the ring.
 */
import type { ChangeUnit } from './change.ts';
import { READINGS } from './circuits.ts';
import { defined } from '../form/plain-data.ts';
import type { NoDial } from './dial/dial.ts';
import type { Row } from './row.ts';
import { rowsOf } from './settings.ts';
import { isRigid, type BikeSheet, type EndSheet } from './sheet.ts';
import { readShare, writeShare } from './units.ts';

/** A number in a unit; or a text: the name of a position, a share such as `28%`, or `not read`. */
export interface Stand {
  readonly setting: string;
  readonly value: number | string;
  readonly unit?: string;
}

export interface Moved {
  readonly setting: string;
  /** absent when the sheet did not say */
  readonly from?: number | string;
  readonly to: number | string;
  readonly unit?: string;
}

/** What a reading is called after a change made it untrue. */
export const NOT_READ = 'not recorded';

/** Where everything on the sheet stands; what nobody wrote down is left out. */
export function standsOf(sheet: BikeSheet): Stand[] {
  return rowsOf(sheet.settings).flatMap((row): Stand[] => {
    if (row.reading !== undefined) {
      const share = sheet.ends[row.end!][READINGS[row.reading]];
      return share === undefined ? [] : [{ setting: row.stand, value: writeShare(share) }];
    }
    const { now, unit, names } = row.shown(sheet) ?? {};
    if (now === undefined || unit === undefined) return [];
    return names === undefined
      ? [{ setting: row.stand, value: now, unit }]
      : [{ setting: row.stand, value: names[now] ?? String(now) }];
  });
}

/** What stands elsewhere on the second sheet; a reading that is no longer there counts as not read. */
export function movedBetween(before: BikeSheet, after: BikeSheet): Moved[] {
  const was = new Map(standsOf(before).map((stand) => [stand.setting, stand]));
  const is = standsOf(after);
  const readings = new Set(
    rowsOf(before.settings).flatMap(({ stand, reading }) => (reading === undefined ? [] : [stand])),
  );
  const gone = [...was.values()].filter(
    ({ setting }) => readings.has(setting) && !is.some((stand) => stand.setting === setting),
  );
  return [...is, ...gone.map(({ setting }) => ({ setting, value: NOT_READ }) as Stand)].flatMap(
    ({ setting, value, unit }) => {
      const from = was.get(setting)?.value;
      return from === value ? [] : [defined<Moved>({ setting, from, to: value, unit })];
    },
  );
}

type Refused = { readonly setting: string } & NoDial;

export interface Stood {
  readonly sheet: BikeSheet;
  /** what is no setting of this bike, or cannot stand there */
  readonly refused: readonly Refused[];
}

/** The sheet with settings put where a log says they stood; readings last, since setting anything takes them off. */
export function withStands(sheet: BikeSheet, stands: readonly Stand[]): Stood {
  const rows = new Map(rowsOf(sheet.settings).map((row) => [row.stand, row]));
  const isReading = ({ setting }: Stand): boolean => rows.get(setting)?.reading !== undefined;
  const refused: Refused[] = [];
  let now = sheet;
  for (const stand of [...stands.filter((one) => !isReading(one)), ...stands.filter(isReading)]) {
    const put = putStand(now, rows.get(stand.setting), stand);
    if ('message' in put) refused.push({ setting: stand.setting, ...put });
    else now = put;
  }
  return { sheet: now, refused };
}

function putStand(
  sheet: BikeSheet,
  row: Row | undefined,
  { setting, value, unit }: Stand,
): BikeSheet | NoDial {
  if (row?.reading !== undefined) return putReading(sheet, row, value);
  const nowhere = { message: `${setting} is not on a bike sheet.`, remedy: 'Set it on the bike itself.' };
  if (row === undefined) return nowhere;
  const dial = row.dial(sheet, { setting: row.setting, unit: (unit ?? row.units[0]) as ChangeUnit });
  if ('message' in dial) return dial;
  const at = typeof value === 'number' ? value : (dial.names?.indexOf(value) ?? -1);
  if (typeof value === 'number' && (unit === undefined || !row.units.includes(unit as ChangeUnit)))
    return nowhere;
  if (typeof value === 'string' && at < 0)
    return dial.names === undefined
      ? nowhere
      : {
          message: `${setting} has no position ${value}.`,
          remedy: `Positions: ${dial.names.join(', ')}.`,
        };
  const outside = at < dial.min || at > dial.max;
  if (outside && dial.unit === 'clicks')
    return { message: `${setting} has no click ${at}.`, remedy: `It goes from 0 to ${dial.max}.` };
  // What stands there already was not turned: what was read of it stays true.
  const stays = dial.now !== undefined && Math.abs(dial.now - at) < 1e-6 * Math.max(1, Math.abs(at));
  return stays ? sheet : dial.turned(at);
}

function putReading(
  sheet: BikeSheet,
  { end, reading, words }: Row,
  value: number | string,
): BikeSheet | NoDial {
  if (isRigid(sheet, end!))
    return { message: `This bike has no ${words} to read.`, remedy: 'It has no suspension at that end.' };
  const share = readShare(value);
  const part = { ...sheet.ends[end!], [READINGS[reading!]]: share.ok ? share.value : undefined };
  return {
    ...sheet,
    ends: { ...sheet.ends, [end!]: defined<EndSheet>(part as { [K in keyof EndSheet]: EndSheet[K] }) },
  };
}
