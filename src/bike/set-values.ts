/**
 * Values put on a sheet as they were counted or read: `front.rebound.low=5`, `rear.sag=29%`, `front.tyre=1.6bar`. A key is
 * a setting of the table, or any place of the file form (`front.rebound.low.clicks=16`, `rider-mass=84`). Nothing was
 * turned, so no reading becomes untrue.
 */
import { sideOf } from './circuits.ts';
import { isMap } from '../form/plain-data.ts';
import { printable } from '../form/text.ts';
import { dottedLine } from '../form/problem.ts';
import { nearest } from '../form/suggest.ts';
import { valueAt, withValueAt, type Draft } from './form/draft.ts';
import { readSheet } from './form/read.ts';
import { sheetSchemaWith } from './form/schema.ts';
import { hasPlace } from '../form/checked.ts';
import type { Row } from './row.ts';
import { knobsOfSide, rowEndingSo, rowsOf } from './settings.ts';
import { ENDS, isRigid, type BikeSheet } from './sheet.ts';
import { dimensionOf, DEFAULT_UNITS, unitNamed, unitsOf, type Dimension } from './units.ts';
import { writeSheet } from './form/write.ts';

const DIMENSIONS = Object.keys(DEFAULT_UNITS) as Dimension[];

/**
 * The unit of a sheet on which no number of its kind stands yet: the one that its first number is given in.
 * @param values as they were typed: `12.5bar` has its own unit, `12.5` has none
 * @returns the sheet in these units, where nothing on it is told in others
 */
function inFirstUnits(sheet: BikeSheet, values: readonly unknown[]): BikeSheet {
  let now = sheet;
  for (const value of values) {
    const unit = typeof value === 'string' ? /\d\s*([a-z][a-z/]*)$/i.exec(value.trim())?.[1] : undefined;
    const dimension = DIMENSIONS.find((one) => unit !== undefined && unitNamed(unit, one) !== undefined);
    if (dimension === undefined || !isUntold(now, dimension)) continue;
    now = withUnit(now, dimension, unitNamed(unit!, dimension)!);
  }
  return now;
}

/** Whether the sheet would read the same in any unit of this kind, but for its name. */
function isUntold(sheet: BikeSheet, dimension: Dimension): boolean {
  const texts = unitsOf(dimension).map((unit) => {
    const { units: _, ...rest } = writeSheet(withUnit(sheet, dimension, unit));
    return JSON.stringify(rest);
  });
  return new Set(texts).size === 1;
}

function withUnit(sheet: BikeSheet, dimension: Dimension, unit: string): BikeSheet {
  return { ...sheet, units: { ...sheet.units, [dimension]: unit } };
}

export interface SetValues {
  /** absent when any of them cannot stand there: half a sheet is another sheet */
  readonly sheet?: BikeSheet;
  /** a line each */
  readonly problems: readonly string[];
}

/** What was written before and after the `=`; the value as YAML would read it. */
export interface Given {
  readonly key: string;
  readonly value: unknown;
}

export function setValues(before: BikeSheet, given: readonly Given[]): SetValues {
  const sheet = inFirstUnits(
    before,
    given.map(({ value }) => value),
  );
  const rows = rowsOf(sheet.settings);
  const problems: string[] = [];
  let draft = writeSheet(sheet) as Draft;
  const paths: string[] = [];
  for (const { key, value } of given) {
    if (value === 'none' && isKnob(rows, key)) {
      draft = withoutKnob(draft, key);
      continue;
    }
    const place = placeOf(sheet, rows, key, value);
    if ('problem' in place) {
      problems.push(place.problem);
      continue;
    }
    const { path, row } = place;
    if (paths.includes(path)) {
      problems.push(`${key} is set twice. Write it once.`);
      continue;
    }
    paths.push(path);
    draft = withValueAt(draft, path, valueFor(row, value));
    if (row?.circuit === undefined || !path.endsWith('.now')) continue;
    // Counted now: roughly where it stood says nothing more. A count of a knob without clicks leaves those unknown.
    draft = withValueAt(draft, path.replace(/now$/, 'near'), undefined);
  }
  const { sheet: after, problems: found } = readSheet(draft, sheet.settings);
  if (after !== undefined && problems.length === 0) return { sheet: after, problems };
  const told = found.filter((p) => p.severity === 'error').map(dottedLine);
  return { problems: [...new Set([...problems, ...told])] };
}

/** Where in the file form a key stands on this bike. */
function placeOf(
  sheet: BikeSheet,
  rows: readonly Row[],
  key: string,
  value: unknown,
): { readonly path: string; readonly row?: Row } | { readonly problem: string } {
  const exact = rows.find((row) => row.stand === key && row.stand !== row.setting);
  const named = exact === undefined ? rows.filter((row) => row.setting === key) : [exact];
  if (named.length > 0) {
    const [first] = named;
    if (first!.end !== undefined && isRigid(sheet, first!.end) && first!.shown(sheet) === undefined)
      if (first!.own === undefined)
        return { problem: `${key}: a ${sheet.kind} has no ${first!.end} suspension. Leave it out.` };
    // A coil has a rate and a preload below the name of its spring; the unit says which is meant.
    const here = named.filter((row) => named.length === 1 || row.shown(sheet) !== undefined);
    const unit = typeof value === 'string' ? /[a-z][a-z/]*$/i.exec(value.trim())?.[0] : undefined;
    const said = unit === undefined ? undefined : dimensionOf(unit);
    const meant = here.filter(
      (row) =>
        here.length === 1 || (said !== undefined && row.units.some((one) => dimensionOf(one) === said)),
    );
    if (meant.length === 1) return { path: pathOf(meant[0]!, value), row: meant[0]! };
    if (unit !== undefined)
      return {
        problem: `${key} is not in ${printable(unit)} on this bike. Write ${here.map((row) => `${row.stand} (${row.units.filter(isWritten).join(', ')})`).join(' or ')}.`,
      };
    return { problem: `${key} can be ${here.map((row) => row.stand).join(' or ')}. Write which you mean.` };
  }
  const side = ofSide(sheet, key);
  if (side !== undefined) return side;
  // A key of another kind of spring, or a slip in one: the form says what this bike has there.
  if (hasSuchPlace(sheet, key) || isBelow(sheet, key)) return { path: key };
  const so = rowEndingSo(key, sheet.settings);
  if (so !== undefined)
    return { problem: `A bike sheet has no ${printable(key)}. Did you mean ${so.stand}?` };
  const ends = ENDS.flatMap((end) => {
    const row = rows.find((one) => one.end === end && one.stand.startsWith(`${end}.${key}`));
    return row === undefined ? [] : [`${end}.${key}`];
  });
  if (ends.length === ENDS.length) return { problem: `${key}: front or rear? Write ${ends.join(' or ')}.` };
  const names = rows.flatMap((row) => [row.stand, row.setting]);
  const near = nearest(key, names);
  return {
    problem: `A bike sheet has no ${printable(key)}. ${near === undefined ? `Settings: ${[...new Set(names)].join(', ')}.` : `Did you mean ${near}?`}`,
  };
}

/** Turns of a collar are counted in a change; what stands in a file is measured. */
function isWritten(unit: string): boolean {
  return dimensionOf(unit) !== undefined;
}

/** `front.rebound`: the one knob of that side; where there are two, which of them is asked. */
function ofSide(sheet: BikeSheet, key: string): ReturnType<typeof placeOf> | undefined {
  const there = knobsOfSide(sheet, key);
  if (there === undefined) return undefined;
  const [only] = there;
  if (only === undefined)
    return { problem: `${key}: the sheet says there is no such knob. Write ${key}.low.clicks=N first.` };
  if (there.length === 1) return { path: only.file, row: only };
  return { problem: `${key}: there are two knobs. Write ${there.map((row) => row.stand).join(' or ')}.` };
}

/** Whether a key names a knob of a damper, or the knobs of one side: `front.compression`. */
function isKnob(rows: readonly Row[], key: string): boolean {
  return rows.some(
    ({ circuit, stand, end }) =>
      circuit !== undefined && (stand === key || key === `${end}.${sideOf(circuit)}`),
  );
}

/** A sheet holds only the knobs that are there: what it lacks already stays as it is. */
function withoutKnob(draft: Draft, key: string): Draft {
  return valueAt(draft, key) === undefined ? draft : withValueAt(draft, key, 'none');
}

/** A setting of a pack that the bike lacks is said in place of its number. */
function pathOf(row: Row, value: unknown): string {
  return row.own !== undefined && value === 'none' ? row.file.replace(/\.now$/, '') : row.file;
}

/** Whether the file form of this bike's sheet has such a place. */
function hasSuchPlace(sheet: BikeSheet, key: string): boolean {
  if (!/^[a-z][a-z0-9-]*(?:\.[a-z][a-z0-9-]*)*$/.test(key)) return false;
  const draft = writeSheet(sheet) as Draft;
  if (valueAt(draft, key) !== undefined) return true;
  return hasPlace(sheetSchemaWith(sheet.settings ?? []), key.split('.'), withValueAt(draft, key, 1));
}

/** Whether a key stands below something of an end that is on the sheet: `rear.spring.pressure` */
function isBelow(sheet: BikeSheet, key: string): boolean {
  const parts = key.split('.');
  return parts.length > 2 && isMap(valueAt(writeSheet(sheet) as Draft, parts.slice(0, -1).join('.')));
}

/** A plain number of a share is a percentage, as it is said. */
function valueFor(row: Row | undefined, value: unknown): unknown {
  return row?.reading !== undefined && typeof value === 'number' && value > 1 ? `${value}%` : value;
}
