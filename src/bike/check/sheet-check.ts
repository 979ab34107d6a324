/** What is said of a sheet, and by which figures and sentences of a pack. */
import type { End } from '../sheet.ts';
import type { TyreForMass } from '../end-readings.ts';

export interface SheetCheck {
  /** absent when it is about the whole bike */
  readonly end?: End;
  /** `check`: outside a limit or against itself, look before riding; `missing`: not written down; `note`: worth knowing */
  readonly severity: 'check' | 'missing' | 'note';
  readonly message: string;
  readonly todo: string;
  /** the number that is missing, as `earshot bike set` takes it: `rear.sag=N%`; absent where none is */
  readonly writeDown?: string;
}

/** Of which end is known. */
export type Told = Omit<SheetCheck, 'end'>;

/** Where only a number is missing. */
export function uncounted(
  value: number | undefined,
  message: string,
  todo: string | undefined,
  writeDown: string,
  severity: Told['severity'] = 'missing',
): Told[] {
  return unless(value, message, todo, severity).map((told) => ({ ...told, writeDown }));
}

export function unless(
  value: number | undefined,
  message: string,
  todo: string | undefined,
  severity: Told['severity'] = 'missing',
): Told[] {
  return value === undefined ? told(severity, message, todo) : [];
}

/** @param todo absent: the pack says nothing of it */
export function told(
  severity: Told['severity'],
  message: string,
  todo = 'Look it up or measure it, and write it on the sheet.',
): Told[] {
  return [{ severity, message, todo }];
}

/** What a rule pack says of the numbers of a bike sheet: what is near enough, and what to do about each that is not right. */
export const TODO = [
  'rider-mass',
  'bike-mass',
  'wheelbase',
  'change-date',
  'travel',
  'tyre-target',
  'tyre-off',
  'tyre-low',
  'tyre-high',
  'preload',
  'preload-max',
  'preload-unusual',
  'preload-over',
  'pressure-max',
  'pressure-beyond',
  'sag-target',
  'sag-off',
  'sag-basis',
  'rebound',
  'clicks',
  'recommended',
  'clicks-off',
  'stroke',
  'leverage-off',
] as const;

export interface SheetTrade {
  /** how far a number may be off and still count as on target: sag in percentage points of travel, the others in percent */
  readonly near: {
    readonly sag: number;
    readonly tyre: number;
    readonly pressure: number;
    readonly leverage: number;
    /** of a knob, from the maker's figure */
    readonly clicks: number;
    /** percent of the travel: so much left over is short, so little is the end of it */
    readonly 'travel-left': number;
    readonly 'travel-end': number;
    /** spacers that fit in most air springs, where the sheet does not say */
    readonly spacers: number;
    /** what tyres usually have for a rider's weight; absent: no pressure is far off without a target */
    readonly 'tyre-for'?: TyreForMass | undefined;
  };
  /** in a sentence or two; what a pack leaves out is only named as missing */
  readonly todo: Readonly<Partial<Record<(typeof TODO)[number], string>>>;
}
