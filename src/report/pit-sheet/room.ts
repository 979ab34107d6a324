/**
 * Keeps a pit sheet on one page: the print that fits, the column of each section, and what goes when there is no room.
 * Made from worked-out heights; a test prints every kind of sheet in a real browser and counts the pages.
 */
import { cutList } from './cut-list.ts';
import { heightsOf, SECTION, type Column, type Heights } from './heights.ts';
import type { PitSheet } from './pit-sheet.ts';

/** Sizes of the letters in print, CSS pixels, tried in turn; small print is 0.85 of it, never under six points. */
export const PRINT_SIZES = [13, 12.2, 11.5, 11, 10.6, 10.2, 9.9, 9.6, 9.42] as const;
export type PrintSize = (typeof PRINT_SIZES)[number];

/** Height of a ruled line for notes, CSS pixels: 7.5 mm. */
export const NOTE_LINE = 28;
/** What worked-out heights may fall short by where a line breaks otherwise than reckoned, CSS pixels. */
const SLACK = 12;
/** Letter paper between margins of 8 mm: the shorter of the two sheets, in CSS pixels. */
const PAGE = ((279.4 - 16) / 25.4) * 96 - SLACK;

/** Sections that stand in either column, in the order in which they find their place. */
const MOVABLE = ['why', 'waiting', 'list'] as const;
export type Movable = (typeof MOVABLE)[number];
export type Places = Readonly<Record<Movable, Column>>;

export interface Fitted {
  readonly sheet: PitSheet;
  readonly size: PrintSize;
  readonly places: Places;
  /** ruled lines for notes that fill the rest of the page */
  readonly lines: number;
}

/**
 * The sheet with the largest print that fits; where not even the smallest does, with less of what can be looked up
 * elsewhere. The first change, its trial, the settings and the cautions always stay.
 */
export function fitToPage(sheet: PitSheet): Fitted {
  let left = sheet;
  for (const shorten of [...SHORTER, undefined]) {
    for (const size of PRINT_SIZES) {
      const { places, height } = laidOut(left, size);
      if (height <= PAGE) return { sheet: left, size, places, lines: linesFor(PAGE - height, size) };
    }
    if (shorten !== undefined) left = shorten(left);
  }
  const size = PRINT_SIZES.at(-1)!;
  return { sheet: left, size, places: laidOut(left, size).places, lines: 0 };
}

/** What goes first when there is no room, one after the other. */
const SHORTER: readonly ((sheet: PitSheet) => PitSheet)[] = [
  (s) => ({ ...s, waiting: [] }),
  (s) => ({ ...s, ridersList: cutList(s.ridersList, 3) }),
  (s) => (s.why === null ? s : { ...s, why: { ...s.why, shown: 3 } }),
  (s) => ({ ...s, knockOn: s.knockOn.slice(0, 4) }),
  (s) => ({ ...s, said: s.said === null ? null : `${s.said.slice(0, 100).trimEnd()}…` }),
  (s) => ({ ...s, notes: cutList(s.notes, 1) }),
  (s) => ({ ...s, ridersList: cutList(s.ridersList, 1), knockOn: s.knockOn.slice(0, 2) }),
  (s) => ({ ...s, said: null, why: s.why === null ? null : { ...s.why, shown: 2 } }),
];

/** Each section that may move goes where the page stays shorter. @returns CSS pixels from the top to the end */
function laidOut(sheet: PitSheet, size: number): { readonly places: Places; readonly height: number } {
  const heights: Heights = heightsOf(sheet, size);
  const filled: Record<Column, number> = { ...heights.fixed };
  const places: Record<Movable, Column> = { why: 'left', waiting: 'left', list: 'left' };
  for (const section of MOVABLE) {
    const after = (column: Column): number => filled[column] + heights[section][column];
    places[section] = after('right') < after('left') ? 'right' : 'left';
    filled[places[section]] = after(places[section]);
  }
  return { places, height: heights.frame + Math.max(filled.left, filled.right) };
}

/** Fewer than two lines are not worth their heading. */
function linesFor(room: number, size: number): number {
  const lines = Math.floor((room - SECTION * size) / NOTE_LINE);
  return lines < 2 ? 0 : lines;
}
