/**
 * The settings table: everything that stands somewhere on a bike, a row each. Whatever reads, writes, asks, changes, logs
 * or prints a setting goes through these rows; a rule pack adds rows of its own (`OwnSetting`). A bike without a rear
 * suspension has the same rows: its dials say why they cannot be turned.
 */
import { capital, withStop } from '../form/text.ts';
import { OF_END, WHOLE } from './built-in-rows.ts';
import { DAMPER, partnerOf, sideOf, type Circuit } from './circuits.ts';
import { dialWith, type ChangeUnit, type Of, type Dial, type NoDial } from './dial/dial.ts';
import { ownDial, ownStand } from './dial/dials.ts';
import { positionsOf, type OwnSetting } from './own-setting.ts';
import type { Row } from './row.ts';
import { ENDS, type BikeSheet, type End } from './sheet.ts';

const BUILT_IN: readonly Row[] = [...ENDS.flatMap((end) => OF_END[end]), ...WHOLE];

function ownRow(own: OwnSetting): Row {
  const { end, key } = own;
  const words = own.words;
  const find = withStop(capital(own.find));
  const turn = ownDial(own);
  return {
    setting: own.id,
    ...(end === undefined ? {} : { end }),
    stand: own.id,
    words,
    title: capital(end === undefined ? words : words.replace(new RegExp(`^${end} `), '')),
    units: [own.unit],
    file: `${end === undefined ? '' : `${end}.`}${key}.now`,
    own,
    shown: (sheet) => {
      const stand = ownStand(sheet, own);
      if (stand === undefined || stand === 'none') return undefined;
      const names = positionsOf(own, stand);
      return { unit: own.unit, now: stand.now, of: stand.range ?? stand.max, maker: stand.maker, names };
    },
    find,
    dial: (sheet, of) => dialWith(find, turn(sheet, of)),
  };
}

/** The whole table: the built-in rows, and those of the packs in use, end by end. */
export function rowsOf(own: readonly OwnSetting[] = []): readonly Row[] {
  if (own.length === 0) return BUILT_IN;
  const of = (end: End | undefined): Row[] => own.filter((one) => one.end === end).map(ownRow);
  return [...ENDS.flatMap((end) => [...OF_END[end], ...of(end)]), ...WHOLE, ...of(undefined)];
}

/** How to find out where a setting that every bike has stands, by its name in a log. */
export function findOf(stand: string): string | undefined {
  return BUILT_IN.find((row) => row.stand === stand)?.find;
}

/** setting → the units it can be changed in; a lone one need not be written */
export function changeable(own: readonly OwnSetting[] = []): ReadonlyMap<string, readonly ChangeUnit[]> {
  if (own.length === 0) return BUILT_IN_UNITS;
  return unitsBySetting(rowsOf(own));
}

const BUILT_IN_UNITS = unitsBySetting(BUILT_IN);

function unitsBySetting(rows: readonly Row[]): ReadonlyMap<string, readonly ChangeUnit[]> {
  const units = new Map<string, readonly ChangeUnit[]>();
  for (const row of rows)
    if (row.units.length > 0) units.set(row.setting, [...(units.get(row.setting) ?? []), ...row.units]);
  return units;
}

/** The row of a setting that is spoken of in a unit. */
export function rowFor({ setting, unit }: Of, own: readonly OwnSetting[] = []): Row | undefined {
  return rowsOf(own).find((row) => row.setting === setting && row.units.includes(unit));
}

/** Whether this is the only knob of a pair that acts on both circuits: one rebound knob is the rebound knob. */
export function isAlone(sheet: BikeSheet, end: End, circuit: Circuit): boolean {
  const { adjusters } = sheet.ends[end];
  return (
    DAMPER[circuit].alone !== undefined &&
    adjusters[circuit] !== undefined &&
    adjusters[partnerOf(circuit)] === undefined
  );
}

/**
 * The knobs of a side of the damper that a bike has: `front.rebound` names the one where it is alone.
 * @returns undefined where the name is that of no side
 */
export function knobsOfSide(sheet: BikeSheet, name: string): readonly Row[] | undefined {
  const rows = rowsOf(sheet.settings).filter(
    ({ circuit, end }) => circuit !== undefined && name === `${end}.${sideOf(circuit)}`,
  );
  if (rows.length === 0) return undefined;
  return rows.filter(({ end, circuit }) => sheet.ends[end!].adjusters[circuit!] !== undefined);
}

/** What a name without its middle may mean: `rear.preload` → the row of `rear.spring.preload`; undefined where two end so. */
export function rowEndingSo(name: string, own: readonly OwnSetting[] = []): Row | undefined {
  const [, end, last] = /^(\w+)\.([\w-]+)$/.exec(name) ?? [];
  const rows = rowsOf(own).filter((row) => row.end === end && row.stand.endsWith(`.${last}`));
  return rows.length === 1 && rows[0]!.stand !== name ? rows[0] : undefined;
}

/** @param of the setting and the unit to speak in, as `parseChange` gives them */
export function dialOf(sheet: BikeSheet, of: Of): Dial | NoDial {
  const row = rowFor(of, sheet.settings);
  if (row !== undefined) return row.dial(sheet, of);
  const all = changeable(sheet.settings);
  const units = all.get(of.setting);
  return {
    message: `${of.setting} is not a valid change${units === undefined ? '' : ` in ${of.unit}`}.`,
    remedy: units === undefined ? `Settings: ${[...all.keys()].join(', ')}.` : `Use ${units.join(', ')}.`,
  };
}
