/**
 * How small the print of a pit sheet must be to stay on one page. A page without a script cannot measure itself, so the
 * lines are counted here; a test in a real browser holds the count against the paper.
 */
import type { PitSheet } from './pit-sheet.ts';

export const DENSITIES = ['roomy', 'close', 'snug', 'tight'] as const;
export type Density = (typeof DENSITIES)[number];

/** Print sizes, CSS pixels, of the body's letters. */
export const PRINT_PIXELS: Readonly<Record<Density, number>> = {
  roomy: 11,
  close: 10.2,
  snug: 9.7,
  tight: 9.2,
};
export const LINE_HEIGHT = 1.28;
/** Letter paper between margins of 8 mm: the shorter of the two sheets, in CSS pixels. */
const PAGE = ((279.4 - 16) / 25.4) * 96;
/** The two columns between the same margins on A4, the narrower of the two sheets, in CSS pixels; 8 : 5 with a gap. */
const COLUMNS = ((210 - 16 - 5) / 25.4) * 96;
const LEFT = (COLUMNS * 8) / 13;
const RIGHT = (COLUMNS * 5) / 13;
/** A letter of a wide sans-serif on average, as a share of its size; held against a browser by a test. */
const LETTER = 0.5;
/** A drawing with its axes, as a share of its width. */
const DRAWING = 160 / 280;

/** The largest print that fits; the smallest where none does. */
export function densityOf(sheet: PitSheet): Density {
  return DENSITIES.find((density) => printedHeight(sheet, density) <= PAGE) ?? 'tight';
}

/** CSS pixels from the top of the sheet to its end on the narrower of the two papers. */
export function printedHeight(sheet: PitSheet, density: Density): number {
  const size = PRINT_PIXELS[density];
  const line = LINE_HEIGHT * size;
  /** height of a text in a width, at a share of the body's size */
  const text = (words: string, width: number, share = 1): number =>
    Math.ceil((breadth(words) + 1) / Math.floor(width / (LETTER * size * share))) * line * share;
  const all = (list: readonly string[], width: number, share: number, gap: number): number =>
    list.reduce((sum, words) => sum + text(words, width, share) + gap * size, 0);
  const SECTION = 2.4 * size;

  const first =
    5.2 * size +
    text(sheet.headline, LEFT - 2 * size, 1.35) +
    all(sheet.about, LEFT - 2 * size, 1, 0) +
    all(
      sheet.first.map(([, words]) => words),
      LEFT - 9 * size,
      1,
      0.15,
    );
  const cautions = [...sheet.cautions.map((c) => `${c.level}: ${c.text}`), ...sheet.notes];
  const why =
    sheet.why === null
      ? 0
      : SECTION +
        text(`${sheet.why.cause}${sheet.why.others.join(', ')}`.padEnd(60), LEFT) +
        0.5 * size +
        all(
          sheet.why.weights.map((w) => `${w.question} ${w.answer}`),
          LEFT - 190,
          0.9,
          0.35,
        ) +
        (sheet.why.rest === null ? 0 : line);
  const left =
    first +
    (cautions.length > 0 ? SECTION + all(cautions, LEFT - size, 0.93, 0.15) : 0) +
    why +
    trialHeight(sheet, size, all) +
    (sheet.waiting.length > 0 ? SECTION + all(sheet.waiting, LEFT - size, 0.85, 0.15) : 0);

  const drawings = [sheet.physics?.curve, sheet.physics?.row].filter((d) => d !== undefined);
  const right =
    SECTION +
    5 * size +
    sheet.settings.reduce(
      (sum, row) => sum + (Object.values(row.cells).some((c) => c.changed) ? 2.6 : 1.45) * size,
      0,
    ) +
    (drawings.length + sheet.knockOn.length > 0 || sheet.undrawn !== null ? SECTION : 0) +
    all(sheet.knockOn, RIGHT - 1.4 * size, 0.85, 0.15) +
    drawings.reduce(
      (sum, d) => sum + 2.4 * size + DRAWING * RIGHT + text(d.says.join(' '), RIGHT, 0.85),
      drawings.length > 0 ? text(' '.repeat(130), RIGHT, 0.85) : 0,
    ) +
    (sheet.undrawn === null ? 0 : text(sheet.undrawn, RIGHT, 0.85));
  const list =
    sheet.ridersList.length > 0
      ? SECTION + all(sheet.ridersList, (sheet.trial === null ? LEFT : RIGHT) - 1.4 * size, 0.85, 2)
      : 0;
  const header =
    6.4 * size +
    text(`${sheet.case}, ${sheet.bike ?? ''}`, COLUMNS, 1.25) +
    (sheet.said === null ? 0 : text(sheet.said, COLUMNS - size) + 0.5 * size);
  const footer = 4 * size;
  return (
    header +
    footer +
    Math.max(left + (sheet.trial === null ? list : 0), right + (sheet.trial === null ? 0 : list))
  );
}

/** Letters that a text is as wide as: capitals and a few others are broad, signs of East Asian scripts two wide. */
function breadth(words: string): number {
  const broad = words.match(/[\p{Lu}mw@%—…]/gu)?.length ?? 0;
  const square = words.match(/[\u1100-\uFFFF]|[\u{10000}-\u{10FFFF}]/gu)?.length ?? 0;
  return words.length + 0.5 * broad + 1.2 * square;
}

function trialHeight(
  { trial }: PitSheet,
  size: number,
  all: (list: readonly string[], width: number, share: number, gap: number) => number,
): number {
  if (trial === null) return 0;
  const heading = 2.4 * size;
  const boxes = 2.2 * size;
  if (!trial.can) return heading + boxes + all([trial.why], LEFT, 1, 0);
  const { pen, relative } = trial;
  const legend = pen.feelings.map((f) => `A ${f.ask}: 1 ${f.low}, 7 ${f.high}.`).join(' ');
  const words = [
    ...pen.notes,
    ...pen.rules,
    ...(pen.extraSettling.atMost > 0 ? [' '.repeat(112)] : []),
    ...(relative ? [' '.repeat(92)] : []),
  ];
  return (
    heading +
    boxes +
    3 * size +
    pen.rows.length * 1.8 * size +
    all([legend], LEFT, 0.85, 0) +
    all(words, LEFT - 1.4 * size, 0.85, 0.15)
  );
}
