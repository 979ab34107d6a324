/**
 * What stands in a sheet in so many words, and what no bike goes beyond, in SI: numbers outside are slips of the pen or of
 * the unit, not settings.
 * Wide on purpose (judgement, no source); the maker's own limits stand on the sheet and are much narrower.
 */
import type { SagBasis } from '../sheet.ts';

export const SHEET_FORMAT = 1;
/** Said in place of the clicks of a knob that nobody has counted. */
export const UNCOUNTED = 'unknown';
export const BASIS = {
  rider: ['standing', 'seated'],
  kit: ['with', 'without'],
  lever: ['open', 'closed'],
} as const satisfies { [K in keyof SagBasis]: readonly SagBasis[K][] };

export type Range = readonly [least: number, most: number];

export const LIMITS = {
  /** kg, with kit */
  riderMass: [20, 250],
  /** kg */
  bikeMass: [5, 60],
  /** m */
  wheelbase: [0.7, 1.6],
  /** degrees from horizontal */
  headAngle: [55, 80],
  /** m at the wheel */
  travel: [0.02, 0.35],
  /** m at the shock */
  stroke: [0.015, 0.2],
  /** wheel travel per shock travel */
  leverage: [1, 5],
  /** Pa, gauge */
  springPressure: [1e5, 4e6],
  /** Pa, gauge */
  tyrePressure: [3e4, 6e5],
  /** N/m */
  rate: [2e3, 3e5],
  /** m of spring compression */
  preload: [0, 0.05],
  /** m a turn */
  preloadPerTurn: [0.0003, 0.004],
  volumeSpacers: [0, 20],
  /** fraction of the travel */
  sag: [0, 0.6],
  travelUsed: [0, 1],
  /** clicks of a knob */
  clicks: [1, 100],
  /** clicks from closed, whether or not anybody has counted how many there are */
  counted: [0, 100],
  /** what a click does to its circuit, as a ratio */
  ratio: [1.005, 2],
  /** m/s of the shaft */
  shaftSpeed: [0.001, 20],
  /** N */
  force: [0.1, 50_000],
  /** m of spacers under the stem */
  stemSpacers: [0, 0.1],
  /** degrees below horizontal */
  leverAngle: [-30, 90],
} as const satisfies Record<string, Range>;
