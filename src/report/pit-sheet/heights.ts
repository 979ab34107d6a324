/**
 * How high each part of a pit sheet is in print. A page without a script cannot measure itself, so this is worked out
 * from what stands on it, for a wide sans-serif on the narrower of the two papers: rather too high than too low.
 */
import { linesOf } from './cut-list.ts';
import type { SettingRow, Stand } from './settings.ts';
import { trialLines } from './trial.ts';
import type { PitSheet } from './pit-sheet.ts';

export type Column = 'left' | 'right';

/** CSS pixels. */
export interface Heights {
  /** above and below the columns */
  readonly frame: number;
  /** what always stands in a column */
  readonly fixed: Readonly<Record<Column, number>>;
  readonly why: Readonly<Record<Column, number>>;
  readonly waiting: Readonly<Record<Column, number>>;
  readonly list: Readonly<Record<Column, number>>;
}

export const LINE_HEIGHT = 1.28;
/** Heights to write in, in letters: a run's row, an empty setting. */
export const ROWS = { run: 2.05, blank: 1.9 } as const;
/** A bar with its words, CSS pixels. */
export const WEIGHT_WIDTH = 190;
/** Height of a bar as a share of its width. */
const BAR = 12 / 200;
/** A section's heading with the gap above, in letters. */
export const SECTION = 2.1;
/** The two columns between margins of 8 mm on A4, the narrower of the two sheets, in CSS pixels; 8 : 5 with a gap. */
const COLUMNS = ((210 - 16 - 5) / 25.4) * 96;
const WIDTH: Readonly<Record<Column, number>> = { left: (COLUMNS * 8) / 13, right: (COLUMNS * 5) / 13 };
/** A letter of a wide sans-serif on average, as a share of its size. */
const LETTER = 0.5;
/** Height of a drawing as a share of its width. */
const DRAWING = 160 / 280;
/** Small print, as a share of the body's size. */
const SMALL = 0.85;

/** @param size of the letters, CSS pixels */
export function heightsOf(sheet: PitSheet, size: number): Heights {
  const ruler = rulerFor(size);
  const both = (height: (column: Column) => number): Record<Column, number> => ({
    left: height('left'),
    right: height('right'),
  });
  return {
    frame: frameHeight(sheet, ruler),
    fixed: {
      left: firstHeight(sheet, ruler) + trialHeight(sheet, ruler),
      right: settingsHeight(sheet.settings, ruler) + physicsHeight(sheet, ruler),
    },
    why: both((column) => whyHeight(sheet, ruler, column)),
    waiting: both((column) => listHeight(sheet.waiting, ruler, column, 0.15)),
    list: both((column) => listHeight(linesOf(sheet.ridersList), ruler, column, 2.4)),
  };
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

function frameHeight({ case: id, bike, said, alarms }: PitSheet, { size, text, list }: Ruler): number {
  const quoted = said === null ? 0 : text(said, COLUMNS - size) + 0.5 * size;
  // Bold letters are a little wider than the others.
  const warned = alarms.length === 0 ? 0 : list(alarms, (COLUMNS - 2 * size) / 1.1, 1, 0) + 1.4 * size;
  return 8.2 * size + text(`${id}, ${bike ?? ''}`, COLUMNS, 1.25) + quoted + warned;
}

function firstHeight(sheet: PitSheet, { size, text, list }: Ruler): number {
  const facts = sheet.first.map(([, words]) => words);
  const cautions = [...sheet.cautions.map((c) => `${c.level}: ${c.text}`), ...linesOf(sheet.notes)];
  return (
    4.4 * size +
    text(sheet.headline, WIDTH.left - 2 * size, 1.35) +
    list(sheet.about, WIDTH.left - 2 * size, 1, 0) +
    list(facts, WIDTH.left - 9 * size, 1, 0.15) +
    (cautions.length > 0 ? SECTION * size + list(cautions, WIDTH.left - size, 0.93, 0.15) : 0)
  );
}

/** On the left a row's bar stands beside its question, on the right below it. */
function whyHeight({ why }: PitSheet, { size, text }: Ruler, column: Column): number {
  if (why === null) return 0;
  const width = WIDTH[column];
  const rows = why.weights.slice(0, why.shown).map(({ question, answer, number, words }) => {
    const beside = column === 'left' ? WEIGHT_WIDTH : width;
    const weight = BAR * beside + 0.3 * size + text(`against, ${number}: ${words}`, beside, 0.9);
    const asked = `${question} ${answer}`;
    return column === 'left'
      ? Math.max(text(asked, width - WEIGHT_WIDTH - 0.7 * size, 0.9), weight)
      : text(asked, width, 0.9) + weight;
  });
  return (
    (SECTION + 0.6) * size +
    text(`${why.cause}${why.others.join(', ')}`.padEnd(60), width) +
    rows.reduce((sum, row) => sum + row + 0.3 * size + 1, 0) +
    (why.weights.length > why.shown ? LINE_HEIGHT * size : 0)
  );
}

function trialHeight({ trial }: PitSheet, { size, list }: Ruler): number {
  if (trial === null) return 0;
  const boxes = 2.2;
  if (!trial.can) return (SECTION + boxes) * size + list([trial.why], WIDTH.left, 1, 0);
  const { pen } = trial;
  const legend = pen.feelings.map((f) => `A ${f.ask}: 1 ${f.low}, 7 ${f.high}.`).join(' ');
  return (
    (SECTION + boxes + 2.4 + (trial.relative ? 5.2 : 2.6)) * size +
    pen.rows.length * (ROWS.run * size + 1) +
    list([legend], WIDTH.left, SMALL, 0) +
    list(trialLines(trial), WIDTH.left - 1.4 * size, SMALL, 0.15)
  );
}

function settingsHeight(settings: readonly SettingRow[], { size, text }: Ruler): number {
  const changes = settings.some(({ cells: { front, rear } }) => front.changed || rear.changed);
  const [named, told] = changes ? [0.4, 0.2] : [0.5, 0.25];
  const line = (words: string, share: number): number => text(words, share * WIDTH.right, SMALL);
  const cell = (value: Stand): number => {
    if (value.is === 'blank') return ROWS.blank * size;
    return line(value.is === 'again' ? 'measure again' : value.text, told);
  };
  const rows = settings.map(
    ({ name, cells: { front, rear } }) =>
      0.2 * size +
      1 +
      Math.max(
        line(name, named),
        ...[front, rear].flatMap(({ before, after }) => [cell(before), cell(after)]),
      ),
  );
  return (SECTION + (changes ? 5 : 2.8)) * size + rows.reduce((sum, row) => sum + row, 0);
}

function physicsHeight({ physics, knockOn, undrawn }: PitSheet, { size, text, list }: Ruler): number {
  const drawings = [physics?.curve, physics?.row].filter((d) => d !== undefined);
  if (drawings.length + knockOn.length === 0 && undrawn === null) return 0;
  const says = drawings.map((d) => d.says.join(' '));
  const width = WIDTH.right;
  return (
    SECTION * size +
    list(knockOn, width - 1.4 * size, SMALL, 0.15) +
    drawings.length * DRAWING * width +
    list(says, width, SMALL, 2.1) +
    (drawings.length > 0 ? text(' '.repeat(130), width, SMALL) : 0) +
    (undrawn === null ? 0 : text(undrawn, width, SMALL))
  );
}

/** @param gap after each line, in letters */
function listHeight(lines: readonly string[], { size, list }: Ruler, column: Column, gap: number): number {
  return lines.length === 0 ? 0 : SECTION * size + list(lines, WIDTH[column] - 1.4 * size, SMALL, gap);
}
