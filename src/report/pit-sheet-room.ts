/**
 * Keeps a pit sheet on one page. A page without a script cannot measure itself, so its height is worked out here from
 * what stands on it; a test prints every kind of sheet in a real browser and counts the pages.
 */
import { leftOut, type PitSheet } from './pit-sheet.ts';

export const DENSITIES = ['roomy', 'close', 'snug', 'tight'] as const;
export type Density = (typeof DENSITIES)[number];

/** Size of the letters in print, CSS pixels; the smallest are seven points. */
export const PRINT_PIXELS: Readonly<Record<Density, number>> = {
  roomy: 11,
  close: 10.2,
  snug: 9.7,
  tight: 9.34,
};
export const LINE_HEIGHT = 1.28;
/** Letter paper between margins of 8 mm: the shorter of the two sheets, in CSS pixels. */
const PAGE = ((279.4 - 16) / 25.4) * 96;
/** The two columns between the same margins on A4, the narrower of the two sheets, in CSS pixels; 8 : 5 with a gap. */
const COLUMNS = ((210 - 16 - 5) / 25.4) * 96;
const LEFT = (COLUMNS * 8) / 13;
const RIGHT = (COLUMNS * 5) / 13;
/** A letter of a wide sans-serif on average, as a share of its size. */
const LETTER = 0.5;
/** Height of a drawing as a share of its width. */
const DRAWING = 160 / 280;
/** Small print, as a share of the body's size. */
const SMALL = 0.85;
/** A section's heading with the gap above, in letters. */
const SECTION = 2.4;

export interface Fitted {
  readonly sheet: PitSheet;
  readonly density: Density;
}

/**
 * The sheet with the largest print that fits; where not even the smallest does, with less of what can be looked up
 * elsewhere. The first change, its trial, the settings and the cautions always stay.
 */
export function fitToPage(sheet: PitSheet): Fitted {
  let left = sheet;
  for (const shorten of [...SHORTER, undefined]) {
    const density = DENSITIES.find((one) => printedHeight(left, one) <= PAGE);
    if (density !== undefined) return { sheet: left, density };
    if (shorten !== undefined) left = shorten(left);
  }
  return { sheet: left, density: 'tight' };
}

/** What goes first when there is no room, one after the other. */
const SHORTER: readonly ((sheet: PitSheet) => PitSheet)[] = [
  (s) => ({ ...s, waiting: [] }),
  (s) => ({ ...s, ridersList: leftOut(s.ridersList, 3) }),
  (s) => (s.why === null ? s : { ...s, why: { ...s.why, shown: 4 } }),
  (s) => ({ ...s, knockOn: s.knockOn.slice(0, 4) }),
  (s) => ({ ...s, said: s.said === null ? null : `${s.said.slice(0, 100).trimEnd()}…` }),
  (s) => ({ ...s, notes: leftOut(s.notes, 1) }),
];

/** CSS pixels from the top of the sheet to its end, on the narrower of the two papers. */
export function printedHeight(sheet: PitSheet, density: Density): number {
  const ruler = rulerFor(PRINT_PIXELS[density]);
  const list = listHeight(sheet, ruler, sheet.trial === null ? LEFT : RIGHT);
  const left = leftHeight(sheet, ruler) + (sheet.trial === null ? list : 0);
  const right = rightHeight(sheet, ruler) + (sheet.trial === null ? 0 : list);
  return headerHeight(sheet, ruler) + Math.max(left, right) + 4 * ruler.size;
}

interface Ruler {
  readonly size: number;
  /** a text in a width, at a share of the body's size */
  readonly text: (words: string, width: number, share?: number) => number;
  /** several, each with a gap in letters */
  readonly list: (lines: readonly string[], width: number, share: number, gap: number) => number;
}

function rulerFor(size: number): Ruler {
  const text: Ruler['text'] = (words, width, share = 1) => {
    const letters = Math.floor(width / (LETTER * size * share));
    return Math.ceil((breadth(words) + 1) / letters) * LINE_HEIGHT * size * share;
  };
  return {
    size,
    text,
    list: (lines, width, share, gap) =>
      lines.reduce((sum, words) => sum + text(words, width, share) + gap * size, 0),
  };
}

/** Letters that a text is as wide as: capitals and a few others are broad, signs of East Asian scripts two wide. */
function breadth(words: string): number {
  const broad = words.match(/[\p{Lu}mw@%—…]/gu)?.length ?? 0;
  const widest = words.match(/[MW]/g)?.length ?? 0;
  const square = words.match(/[\u1100-\uFFFF]|[\u{10000}-\u{10FFFF}]/gu)?.length ?? 0;
  return words.length + 0.5 * broad + 0.5 * widest + 1.2 * square;
}

function headerHeight({ case: id, bike, said }: PitSheet, { size, text }: Ruler): number {
  const quoted = said === null ? 0 : text(said, COLUMNS - size) + 0.5 * size;
  return 6.4 * size + text(`${id}, ${bike ?? ''}`, COLUMNS, 1.25) + quoted;
}

function leftHeight(sheet: PitSheet, ruler: Ruler): number {
  const { size, text, list } = ruler;
  const facts = sheet.first.map(([, words]) => words);
  const cautions = [...sheet.cautions.map((c) => `${c.level}: ${c.text}`), ...sheet.notes];
  return (
    5.2 * size +
    text(sheet.headline, LEFT - 2 * size, 1.35) +
    list(sheet.about, LEFT - 2 * size, 1, 0) +
    list(facts, LEFT - 9 * size, 1, 0.15) +
    (cautions.length > 0 ? SECTION * size + list(cautions, LEFT - size, 0.93, 0.15) : 0) +
    whyHeight(sheet, ruler) +
    trialHeight(sheet, ruler) +
    (sheet.waiting.length > 0 ? SECTION * size + list(sheet.waiting, LEFT - size, SMALL, 0.15) : 0)
  );
}

function whyHeight({ why }: PitSheet, { size, text, list }: Ruler): number {
  if (why === null) return 0;
  const shown = why.weights.slice(0, why.shown).map((w) => `${w.question} ${w.answer}`);
  return (
    (SECTION + 0.5) * size +
    text(`${why.cause}${why.others.join(', ')}`.padEnd(60), LEFT) +
    // beside the bar and the words of the weight
    list(shown, LEFT - 190, 0.9, 0.35) +
    (why.weights.length > why.shown ? LINE_HEIGHT * size : 0)
  );
}

function trialHeight({ trial }: PitSheet, { size, list }: Ruler): number {
  if (trial === null) return 0;
  const boxes = 2.2;
  if (!trial.can) return (SECTION + boxes) * size + list([trial.why], LEFT, 1, 0);
  const { pen } = trial;
  const legend = pen.feelings.map((f) => `A ${f.ask}: 1 ${f.low}, 7 ${f.high}.`).join(' ');
  const extra = [pen.extraSettling.atMost > 0, trial.relative].flatMap((said) =>
    said ? [' '.repeat(110)] : [],
  );
  return (
    (SECTION + boxes + 3 + 1.8 * pen.rows.length) * size +
    list([legend], LEFT, SMALL, 0) +
    list([...pen.notes, ...pen.rules, ...extra], LEFT - 1.4 * size, SMALL, 0.15)
  );
}

function rightHeight({ settings, physics, knockOn, undrawn }: PitSheet, { size, text, list }: Ruler): number {
  const rows = settings.map(({ cells }) => (cells.front.changed || cells.rear.changed ? 2.6 : 1.45));
  const drawings = [physics?.curve, physics?.row].filter((d) => d !== undefined);
  const says = drawings.map((d) => d.says.join(' '));
  const empty = drawings.length + knockOn.length === 0 && undrawn === null;
  return (
    (SECTION + 5 + rows.reduce((sum, row) => sum + row, 0)) * size +
    (empty ? 0 : SECTION * size) +
    list(knockOn, RIGHT - 1.4 * size, SMALL, 0.15) +
    drawings.length * DRAWING * RIGHT +
    list(says, RIGHT, SMALL, 2.4) +
    (drawings.length > 0 ? text(' '.repeat(130), RIGHT, SMALL) : 0) +
    (undrawn === null ? 0 : text(undrawn, RIGHT, SMALL))
  );
}

function listHeight({ ridersList }: PitSheet, { size, list }: Ruler, width: number): number {
  return ridersList.length === 0 ? 0 : SECTION * size + list(ridersList, width - 1.4 * size, SMALL, 2);
}
