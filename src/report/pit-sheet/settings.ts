/** The bike's settings before and after the first change, a row a setting and a pair of columns an end. */
import { partnerOf } from '../../bike/circuits.ts';
import type { Row, Shown } from '../../bike/row.ts';
import { isAlone, rowsOf } from '../../bike/settings.ts';
import { ENDS, isRigid, type BikeSheet, type End } from '../../bike/sheet.ts';
import { titleOf } from '../bike/sheet-rows.ts';

/** What stands in one cell of the table. */
export type Stand =
  /** written down, e.g. `8 of 16` */
  | { readonly is: 'known'; readonly text: string }
  /** to be filled in by pen */
  | { readonly is: 'blank' }
  /** must be read again, because the change makes the old reading untrue; to be filled in by pen */
  | { readonly is: 'again' }
  /** the bike has no such thing */
  | { readonly is: 'none'; readonly text: string };

export interface SettingRow {
  readonly name: string;
  readonly cells: Readonly<
    Record<End, { readonly before: Stand; readonly after: Stand; readonly changed: boolean }>
  >;
}

/** What the numbers of the table mean. */
export const COUNTED = 'Clicks from fully closed. Fill in the blanks.';

const BLANK: Stand = { is: 'blank' };

/** A change whose start nobody wrote down: `front.rebound.low`, and how far in words. */
export interface Turn {
  readonly setting: string;
  readonly words: string;
}

/**
 * @param before absent: a table of blanks
 * @param after the sheet with the change made; absent: nothing is changed, or nobody knows from where
 * @param turn the change, when nobody knows from where
 */
export function settingRows(
  before: BikeSheet | undefined,
  after: BikeSheet | undefined,
  turn?: Turn,
): SettingRow[] {
  const rows = rowsOf(before?.settings ?? []);
  const parts = new Map<string, Row[]>();
  for (const row of rows) {
    if (row.reading === 'travel-used') continue;
    // A coil's rate and its preload share a line, and so do the two ends.
    const name = row.end === undefined ? row.setting : row.setting.slice(row.end.length + 1);
    parts.set(name, [...(parts.get(name) ?? []), row]);
  }
  return [...parts.values()].toSorted(knobsFirst).flatMap((group) => settingRow(group, before, after, turn));
}

/** Where a mechanic's hand goes first after a run. */
function knobsFirst([a]: readonly Row[], [b]: readonly Row[]): number {
  return Number(a!.circuit === undefined) - Number(b!.circuit === undefined);
}

function settingRow(
  group: readonly Row[],
  before: BikeSheet | undefined,
  after: BikeSheet | undefined,
  turn: Turn | undefined,
): SettingRow[] {
  const [first] = group;
  const cellOf = (end: End): SettingRow['cells'][End] => {
    const rows = group.filter((row) => row.end === end);
    if (rows.length === 0) return { before: NONE, after: NONE, changed: false };
    return cell(before, after, rows, turn?.setting === rows[0]!.setting ? turn : undefined);
  };
  if (first!.end === undefined) {
    const whole = cell(before, after, group, turn?.setting === first!.setting ? turn : undefined);
    // What belongs to the whole bike has no column of its own: only a change of it is shown.
    if (!whole.changed) return [];
    return [
      { name: first!.title, cells: { front: whole, rear: { before: NONE, after: NONE, changed: false } } },
    ];
  }
  // Where one knob acts on both circuits at every end, there is no line for the other.
  if (before !== undefined && group.every((row) => isCovered(before, row))) return [];
  const cells = { front: cellOf('front'), rear: cellOf('rear') };
  const absent = ENDS.every((end) => cells[end].before.is === 'none' && !cells[end].changed);
  if (before !== undefined && absent && first!.circuit === undefined) return [];
  const spring = group.length > ENDS.length;
  return [{ name: spring ? 'Spring' : nameIn(before, group), cells }];
}

/** Whether the knob of the other circuit is the only one, and stands for this one too. */
function isCovered(sheet: BikeSheet, { circuit, end }: Row): boolean {
  return circuit !== undefined && isAlone(sheet, end!, partnerOf(circuit));
}

/** One rebound knob at every end that has any is the rebound knob. */
function nameIn(before: BikeSheet | undefined, group: readonly Row[]): string {
  if (before === undefined) return group[0]!.title;
  const there = group.filter((row) => row.shown(before) !== undefined);
  const names = new Set((there.length === 0 ? group : there).map((row) => titleOf(before, row)));
  return names.size === 1 ? [...names][0]! : group[0]!.title;
}

const NONE: Stand = { is: 'none', text: 'none' };

function cell(
  before: BikeSheet | undefined,
  after: BikeSheet | undefined,
  rows: readonly Row[],
  turn: Turn | undefined,
): SettingRow['cells'][End] {
  const was = before === undefined ? BLANK : standOf(before, rows);
  if (turn !== undefined) return { before: was, after: known(turn.words), changed: true };
  if (before === undefined || after === undefined) return { before: was, after: was, changed: false };
  const willBe = standOf(after, rows);
  // The change took the reading off the sheet.
  const shown: Stand =
    rows[0]!.reading !== undefined && was.is === 'known' && willBe.is === 'blank' ? { is: 'again' } : willBe;
  const changed = shown.is !== was.is || textOf(shown) !== textOf(was);
  return { before: was, after: shown, changed };
}

/** Where the rows of one line stand at one end: a coil's rate and its preload are one text. */
function standOf(sheet: BikeSheet, rows: readonly Row[]): Stand {
  const there = rows.flatMap((row) => row.shown(sheet) ?? []);
  if (there.length === 0) return { is: 'none', text: absentWords(sheet, rows[0]!) };
  const texts = there.map(textIn);
  if (texts.every((text) => text === undefined)) return BLANK;
  const [main, ...more] = texts;
  return known(
    [main ?? 'coil', ...more.flatMap((text) => (text === undefined ? [] : [`+${text}`]))].join(' '),
  );
}

function absentWords(sheet: BikeSheet, { end, circuit, own }: Row): string {
  // What a pack adds to the whole bike is at no end.
  if (end === undefined) return 'none';
  if (isRigid(sheet, end)) return 'rigid';
  if (circuit !== undefined) return 'no knob';
  return own === undefined ? sheet.ends[end].spring.kind : 'none';
}

function textIn({ now, unit, of, names }: Shown): string | undefined {
  if (now === undefined) return undefined;
  if (names !== undefined) return names[now] ?? String(now);
  if (unit === '%') return `${now}%`;
  if (unit === 'clicks') return of === undefined ? String(now) : `${now} of ${of}`;
  return unit === 'spacers' ? String(now) : `${now} ${unit}`;
}

function known(text: string): Stand {
  return { is: 'known', text };
}

function textOf(stand: Stand): string | undefined {
  return stand.is === 'known' ? stand.text : undefined;
}
