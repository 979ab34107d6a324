/** What one bike has and where it stands now. Everything is SI here; files carry the user's own units. */
import type { Circuit } from './circuits.ts';
import type { OwnSetting, OwnStand } from './own-setting.ts';

export { CIRCUITS, type Circuit } from './circuits.ts';

export type End = 'front' | 'rear';
export const ENDS: readonly End[] = ['front', 'rear'];

/** Roughly where a knob stands that nobody has counted. */
export const PLACES = ['closed', 'nearly-closed', 'middle', 'nearly-open', 'open'] as const;
export type RoughPlace = (typeof PLACES)[number];

export function isRoughPlace(said: string | undefined): said is RoughPlace {
  return (PLACES as readonly string[]).includes(said ?? '');
}

/** One knob. Clicks are counted from fully closed (0 = slowest or firmest); more clicks = more open. */
export interface Adjuster {
  /** clicks from fully closed to fully open; absent when nobody has counted them: it is a knob all the same */
  readonly range?: number;
  /** clicks from closed now; absent when nobody has counted them */
  readonly now?: number;
  /** roughly where it stands, where nobody has counted */
  readonly near?: RoughPlace;
  /** clicks from closed on the maker's starting sheet */
  readonly maker?: number;
  /** what one click does to the circuit's coefficient, e.g. 1.07; absent = the model's default */
  readonly ratio?: number;
}

export interface AirSpring {
  readonly kind: 'air';
  /** gauge pressure, Pa */
  readonly pressure?: number;
  /** the maker's limits, gauge pressure, Pa */
  readonly pressureMin?: number;
  readonly pressureMax?: number;
  /** the maker's starting pressure, gauge, Pa */
  readonly pressureMaker?: number;
  /** volume spacers fitted, and the most that fit */
  readonly spacers?: number;
  readonly spacersMax?: number;
}

export interface CoilSpring {
  readonly kind: 'coil';
  /** N/m, at the shock or in the fork leg (not at the wheel for the rear) */
  readonly rate?: number;
  /** preload as spring compression at full extension, m, and the most the maker allows */
  readonly preload?: number;
  readonly preloadMax?: number;
  /** how far one turn of the preload collar moves it, m (its thread's pitch); absent = nobody measured it */
  readonly preloadPerTurn?: number;
}

/** One point of a measured damper curve at known clicks. Rebound forces are given as positive numbers. */
export interface CurvePoint {
  readonly circuit: 'rebound' | 'compression';
  /** shaft speed, m/s, > 0 */
  readonly speed: number;
  /** N, > 0 */
  readonly force: number;
  /** clicks from closed of the low- and the high-speed adjuster when it was measured */
  readonly low: number;
  readonly high: number;
}

/** How sag was measured, as far as it was written down. */
export interface SagBasis {
  readonly rider?: 'standing' | 'seated';
  /** with all that is worn and carried on a ride */
  readonly kit?: 'with' | 'without';
  /** the climb lever or lock-out while it was measured */
  readonly lever?: 'open' | 'closed';
}

export interface EndSheet {
  /** true: no suspension at this end. Travel is 0 then, the spring stands for nothing, and there is no knob */
  readonly rigid?: true;
  /** true: nobody said what this end has (a bike without a sheet); never in a file */
  readonly unsaid?: true;
  /** true: nobody said which spring it has */
  readonly unsaidSpring?: true;
  /** circuits of which nobody knows whether they have a knob */
  readonly unsure?: readonly Circuit[];
  /** where nobody said it in so many words: the kind of spring that what was told can only be of */
  readonly toldSpring?: 'air' | 'coil';
  /** where somebody told it without a number: more preload than a coil of the right rate needs */
  readonly toldPreload?: 'beyond';
  /** where its sag was told: the turns of the collar that would bring it right, of a coil; + is tighter */
  readonly toldTurns?: number;
  /** wheel travel, m; 0: not known */
  readonly travel: number;
  /** shock stroke, m (rear only) */
  readonly stroke?: number;
  /** wheel travel per shock travel at 0 %, 50 % and 100 % of the travel (rear only) */
  readonly leverage?: readonly [number, number, number];
  readonly spring: AirSpring | CoilSpring;
  /** fractions of the travel, rider in riding position, e.g. 0.28 */
  readonly sagMeasured?: number;
  readonly sagWanted?: number;
  readonly sagBasis?: SagBasis;
  /** fraction of the travel used on the hardest recent run, 0..1 (1 = the ring was at the end) */
  readonly travelUsed?: number;
  /** absent circuit = the damper has no knob for it */
  readonly adjusters: Readonly<Partial<Record<Circuit, Adjuster>>>;
  /** what packs brought a setting for, by its key; absent = the sheet does not say */
  readonly own?: Readonly<Record<string, OwnStand>>;
  /** gauge pressure, Pa */
  readonly tyre?: { readonly now?: number; readonly wanted?: number };
  readonly curve?: readonly CurvePoint[];
  /** the owner's own words, kept as they are */
  readonly note?: string;
}

export const BIKE_KINDS = ['hardtail', 'cross-country', 'trail', 'enduro', 'downhill', 'e-bike'] as const;
export type BikeKind = (typeof BIKE_KINDS)[number];

export interface UnitChoice {
  readonly pressure: 'psi' | 'bar' | 'kPa';
  readonly mass: 'kg' | 'lb';
  readonly rate: 'N/mm' | 'lb/in';
  readonly length: 'mm' | 'in';
}

export interface BikeSheet {
  readonly id: string;
  readonly name?: string;
  readonly kind: BikeKind;
  /** true: nobody said which kind it is */
  readonly unsaidKind?: true;
  readonly units: UnitChoice;
  /** rider with kit, kg */
  readonly riderMass?: number;
  /** bike alone, kg */
  readonly bikeMass?: number;
  readonly geometry?: {
    /** m */
    readonly wheelbase?: number;
    /** degrees from horizontal */
    readonly headAngle?: number;
  };
  readonly ends: Readonly<Record<End, EndSheet>>;
  /** the rows that the rule packs in use add to the settings table */
  readonly settings?: readonly OwnSetting[];
  /** where those of the whole bike stand, by key */
  readonly own?: Readonly<Record<string, OwnStand>>;
  readonly cockpit?: {
    /** stem spacers under the stem, m */
    readonly spacersUnderStem?: number;
    /** brake lever angle below horizontal, degrees */
    readonly leverAngle?: number;
  };
  /** what was changed lately, newest first */
  readonly changed?: readonly { readonly what: string; readonly when?: string }[];
  /** the owner's own words, kept as they are */
  readonly note?: string;
}

/** Whether this end has no suspension at all. */
export function isRigid(sheet: BikeSheet, end: End): boolean {
  return sheet.ends[end].rigid === true;
}
