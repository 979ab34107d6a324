/** The bike's settings before and after the first change, a row a setting and a pair of columns an end. */
import { ENDS, type Adjuster, type BikeSheet, type Circuit, type End } from '../bike/sheet.ts';
import { writeQuantity, writeShare } from '../bike/units.ts';

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

const CIRCUIT_NAMES: Readonly<Record<Circuit, string>> = {
  'rebound.low': 'Rebound, low speed',
  'rebound.high': 'Rebound, high speed',
  'compression.low': 'Compression, low speed',
  'compression.high': 'Compression, high speed',
};

/** What the numbers of the table mean. */
export const COUNTED = 'Clicks count from fully closed. Empty: fill in.';

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
  const row = (name: string, path: string, read: Read): SettingRow => ({
    name,
    cells: {
      front: cell(before, after, 'front', read, turn?.setting === `front.${path}` ? turn : undefined),
      rear: cell(before, after, 'rear', read, turn?.setting === `rear.${path}` ? turn : undefined),
    },
  });
  const rows: SettingRow[] = Object.entries(CIRCUIT_NAMES).map(([circuit, name]) =>
    row(name, circuit, (sheet, end) => clicks(sheet.ends[end].adjusters[circuit as Circuit])),
  );
  rows.push(row('Spring', 'spring', spring));
  if (before === undefined || ENDS.some((end) => before.ends[end].spring.kind === 'air'))
    rows.push(row('Volume spacers', 'ramp-up', spacers));
  rows.push(
    row('Sag', 'sag', (sheet, end) => {
      const { sagMeasured } = sheet.ends[end];
      if (sagMeasured !== undefined) return known(writeShare(sagMeasured));
      // The change took the reading off the sheet.
      return before?.ends[end].sagMeasured === undefined ? BLANK : { is: 'again' };
    }),
    row('Tyre', 'tyre', ({ ends, units }, end) => quantity(ends[end].tyre?.now, units.pressure)),
  );
  const bars = cell(before, after, 'front', stem, turn?.setting === 'bars' ? turn : undefined);
  const none: Stand = { is: 'none', text: 'none' };
  if (bars.changed)
    rows.push({
      name: 'Spacers under the stem',
      cells: { front: bars, rear: { before: none, after: none, changed: false } },
    });
  return rows;
}

type Read = (sheet: BikeSheet, end: End) => Stand;

function cell(
  before: BikeSheet | undefined,
  after: BikeSheet | undefined,
  end: End,
  read: Read,
  turn: Turn | undefined,
): SettingRow['cells'][End] {
  const was = before === undefined ? BLANK : read(before, end);
  if (turn !== undefined) return { before: was, after: known(turn.words), changed: true };
  if (before === undefined || after === undefined) return { before: was, after: was, changed: false };
  const willBe = read(after, end);
  const changed = willBe.is !== was.is || textOf(willBe) !== textOf(was);
  return { before: was, after: willBe, changed };
}

function clicks(adjuster: Adjuster | undefined): Stand {
  if (adjuster === undefined) return { is: 'none', text: 'no knob' };
  return adjuster.now === undefined ? BLANK : known(`${adjuster.now} of ${adjuster.range}`);
}

function spring({ ends, units }: BikeSheet, end: End): Stand {
  const { spring } = ends[end];
  if (spring.kind === 'air') return quantity(spring.pressure, units.pressure);
  const rate = spring.rate === undefined ? undefined : writeQuantity(spring.rate, units.rate);
  const preload = spring.preload === undefined ? undefined : writeQuantity(spring.preload, units.length);
  if (rate === undefined && preload === undefined) return BLANK;
  return known([rate ?? 'coil', ...(preload === undefined ? [] : [`+${preload}`])].join(' '));
}

function spacers({ ends }: BikeSheet, end: End): Stand {
  const { spring } = ends[end];
  if (spring.kind === 'coil') return { is: 'none', text: 'coil' };
  return spring.spacers === undefined ? BLANK : known(String(spring.spacers));
}

function stem({ cockpit, units }: BikeSheet): Stand {
  return quantity(cockpit?.spacersUnderStem, units.length);
}

function quantity(si: number | undefined, unit: Parameters<typeof writeQuantity>[1]): Stand {
  return si === undefined ? BLANK : known(writeQuantity(si, unit));
}

function known(text: string): Stand {
  return { is: 'known', text };
}

function textOf(stand: Stand): string | undefined {
  return stand.is === 'known' ? stand.text : undefined;
}
