/**
 * A setting that a rule pack brings with an `adjuster:` block: one more row of the settings table, as plain data. It is
 * counted in clicks from closed, in a unit, or stands at one of a few named positions.
 */
import type { Reading } from './circuits.ts';
import type { End, RoughPlace } from './sheet.ts';

/** Units an adjuster of a pack can be counted in. */
export const OWN_UNITS = [
  'clicks',
  'positions',
  'turns',
  'spacers',
  'mm',
  'in',
  'psi',
  'bar',
  'kPa',
  'N/mm',
  'lb/in',
  'degrees',
] as const;
export type OwnUnit = (typeof OWN_UNITS)[number];

/** The form its stand has on a sheet: one name for all that are counted in a unit. */
export function ownFormOf(unit: OwnUnit): 'clicks' | 'positions' | 'number' {
  return unit === 'clicks' || unit === 'positions' ? unit : 'number';
}

export interface OwnSetting {
  /** as rules and changes name it: front.bottom-out, or bar-width for the whole bike */
  readonly id: string;
  readonly end?: End;
  /** its key on the bike sheet: bottom-out */
  readonly key: string;
  readonly words: string;
  readonly unit: OwnUnit;
  /** with `positions`: the names from closed (or lowest) to open (or highest) */
  readonly positions?: readonly string[];
  /** what no bike goes beyond, in `unit`; for clicks the fewest and most a knob may have */
  readonly range: readonly [least: number, most: number];
  /** the smallest step that can be set, in `unit` */
  readonly grain: number;
  /** the readings that are no longer true once it is moved */
  readonly stale: readonly Reading[];
  /** how to find out where it stands */
  readonly find: string;
}

/** What a sheet says of such a setting; `none`: the bike has no such thing. */
export type OwnStand = 'none' | OwnPlace;

export interface OwnPlace {
  /** clicks from closed, in the pack's unit, or the index of the position; absent when nobody looked */
  readonly now?: number;
  /** roughly where it stands, where nobody has counted */
  readonly near?: RoughPlace;
  /** where the maker starts, or what is wanted, counted the same way */
  readonly maker?: number;
  /** clicks from closed to open; absent when nobody counted them */
  readonly range?: number;
  /** the maker's limits, in the pack's unit */
  readonly min?: number;
  readonly max?: number;
  /** the positions of this bike, where it has others than the pack says */
  readonly positions?: readonly string[];
}

/** The names of its positions on this bike; undefined for what is counted. */
export function positionsOf(own: OwnSetting, place?: OwnPlace): readonly string[] | undefined {
  return own.unit === 'positions' ? (place?.positions ?? own.positions ?? []) : undefined;
}

/** `2/5`, `2 of 5`: which of how many, from closed (or lowest) on. */
const ONE_OF = /^(\d{1,2})\s*(?:\/|of)\s*(\d{1,2})$/;
/** No lever has more. */
const MOST_POSITIONS = 12;

export interface CountedPosition {
  /** of this bike; absent: it has those that the pack names */
  readonly positions?: readonly string[];
  readonly now: number;
}

/**
 * Where a lever with more or fewer positions than the pack names stands, told as which of how many; the ends keep the names of
 * the pack.
 * @returns undefined where the text tells no such thing, or the lever has no such position
 */
export function countedPosition(text: string, { positions = [] }: OwnSetting): CountedPosition | undefined {
  const [, which = 0, many = 0] = (ONE_OF.exec(text.trim()) ?? []).map(Number);
  if (many < 2 || many > MOST_POSITIONS || which < 1 || which > many) return undefined;
  const now = which - 1;
  if (many === positions.length) return { now };
  const between = Array.from({ length: many - 2 }, (_, i) => `${i + 2}-of-${many}`);
  return { positions: [positions[0]!, ...between, positions.at(-1)!], now };
}
