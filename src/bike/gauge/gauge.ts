/** What is read with a gauge, a ring or a ruler, and what a number is taken for. */
import type { SheetTrade } from '../check/sheet-check.ts';
import type { BikeSheet, End } from '../sheet.ts';
import { usualTyre } from '../end-readings.ts';

/** sag: a share, of the travel at the front and of the shock's stroke at the rear; the others: gauge pressure, Pa */
export const READS = ['sag', 'tyre', 'spring'] as const;
export type Reads = (typeof READS)[number];

/** How far off still counts as on target: `amount` in SI or as a share of the travel, `part` as a share of the target. */
export type Within = { readonly amount: number } | { readonly part: number };

/** What a number is held against: the sheet's own figure, what is usual for the rider's weight, or a figure of the pack. */
export type Against =
  | { readonly of: 'sheet' | 'weight'; readonly within: Within }
  | { readonly of: 'usual'; readonly within: Within; readonly figure: Band };

/** Least and most, as `Reads` has it. */
export type Band = readonly [least: number, most: number];

/** What a question makes of a number. */
export interface Gauge {
  readonly reads: Reads;
  /** ids of the answers for a number below, on and above target */
  readonly answers: { readonly below: string; readonly near: string; readonly above: string };
  /** the first of them that is known is held against; where none is, the figure has to be told */
  readonly against: readonly Against[];
  /** how a number may be written, the last with what it is a part of; absent: the pack does not say */
  readonly like?: readonly string[];
  /** the words that riders call the number by, lower case */
  readonly called?: readonly string[];
}

export interface Target {
  readonly of: Against['of'];
  /** the figure itself */
  readonly figure: Band;
  /** what counts as on target */
  readonly band: Band;
}

/**
 * What a number at an end is held against; undefined where somebody has to tell the figure.
 * @param sheet what is known of the bike, its numbers may be missing
 * @param mass of the rider with kit, kg, where the sheet has none
 */
export function targetOf(
  { reads, against }: Gauge,
  end: End,
  sheet: BikeSheet | undefined,
  near: SheetTrade['near'],
  mass: number | undefined = sheet?.riderMass,
): Target | undefined {
  for (const one of against) {
    const figure = figureOf(one, reads, end, sheet, near, mass);
    if (figure !== undefined) return { of: one.of, figure, band: widened(figure, one.within) };
  }
  return undefined;
}

function figureOf(
  one: Against,
  reads: Reads,
  end: End,
  sheet: BikeSheet | undefined,
  near: SheetTrade['near'],
  mass: number | undefined,
): Band | undefined {
  if (one.of === 'usual') return one.figure;
  const figure = one.of === 'sheet' ? sheetFigure(reads, end, sheet) : usualTyre(mass, end, near['tyre-for']);
  return figure === undefined ? undefined : [figure, figure];
}

/** Whether there is such a thing to read there. @param spring as `sheetFact` has it; absent: there may be */
export function canRead(reads: Reads, spring: string | undefined): boolean {
  if (reads === 'tyre' || spring === undefined) return true;
  return reads === 'sag' ? spring !== 'none' : spring === 'air';
}

/** The figure that the sheet sets for what is read. */
export function sheetFigure(reads: Reads, end: End, sheet: BikeSheet | undefined): number | undefined {
  if (sheet === undefined) return undefined;
  const { sagWanted, tyre, spring } = sheet.ends[end];
  if (reads === 'sag') return sagWanted;
  if (reads === 'tyre') return tyre?.wanted;
  return spring.kind === 'air' ? spring.pressureMaker : undefined;
}

/** What counts as on target where somebody told the figure: some room around it; from one to the other is that already. */
export function bandTold(told: Band, { against }: Gauge): Band {
  return against[0] === undefined || told[0] !== told[1] ? told : widened(told, against[0].within);
}

function widened([least, most]: Band, within: Within): Band {
  const by = (figure: number): number => ('part' in within ? within.part * figure : within.amount);
  return [Math.max(0, least - by(least)), most + by(most)];
}

/** The answer that a number is. */
export function answerFor(value: number, [least, most]: Band, { answers }: Gauge): string {
  // What is written has a digit after the point at most: a hair beside the edge is on it.
  const hair = 1e-6 * Math.max(1, most);
  return value < least - hair ? answers.below : value > most + hair ? answers.above : answers.near;
}

/**
 * How far out a number is in the room around a usual figure: 0 on the figure, 1 at the edge of what counts as on target, more
 * beyond it. What a sheet or somebody names is a target, and all of the room around it is what a ring or a gauge may be off by.
 */
export function awayIn(value: number, { of, figure, band }: Target): number {
  if (of === 'sheet') return 0;
  const [side, edge] = value < figure[0] ? [figure[0], band[0]] : [figure[1], band[1]];
  if (value >= figure[0] && value <= figure[1]) return 0;
  return side === edge ? Infinity : (value - side) / (edge - side);
}
