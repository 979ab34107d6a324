/** One thing to be said of a sheet, and of a number that is missing. */
import type { End } from '../sheet.ts';

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
