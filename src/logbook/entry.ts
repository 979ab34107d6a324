/** What one entry of a bike's history says. */
import type { Deed } from '../bike/deed.ts';
import { valueWords } from '../bike/setting-words.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { standsOf } from '../bike/setting-values.ts';

/**
 * start: counted or read off the bike, the way back; counted: some settings counted again, nothing turned; change:
 * something was set or fitted; undo: a change taken back; result: what a trial found; note: a note.
 */
export type EntryKind = 'start' | 'counted' | 'change' | 'undo' | 'result' | 'note';

/** A setting's value: clicks from closed, a pressure, or the name of a part. */
export type Value = number | string;

export interface SettingChange {
  readonly setting: string;
  /** absent when nobody knew */
  readonly from?: Value;
  readonly to: Value;
  readonly unit?: string;
}

export interface TrialOutcome {
  readonly change: Deed;
  readonly setting: string;
  readonly outcome: 'better' | 'same' | 'worse';
  readonly kept: boolean;
  /** what the ratings came to: points better than the reference, and their standard deviation */
  readonly points?: number;
  readonly error?: number;
}

/** An interview about the bike: where its answers are, and whether it found that the bike must not be ridden. */
export interface KeptCase {
  /** full path */
  readonly file: string;
  readonly stop: boolean;
}

/** What is handed in; the log adds the number, the time, and `from` where it knows it. */
export interface EntryDraft {
  readonly kind: EntryKind;
  readonly changes?: readonly SettingChange[];
  readonly reason?: string;
  /** ids of the interview or the trial behind it */
  readonly case?: string;
  readonly trial?: string;
  readonly result?: TrialOutcome;
  readonly kept?: KeptCase;
}

export interface Entry extends EntryDraft {
  /** 1, 2, … in the order of the file, which is the truth even when a clock was wrong */
  readonly entry: number;
  /** ISO 8601 */
  readonly at: string;
  /** the entry that this one takes back */
  readonly undoes?: number;
  /** dated before the entry above */
  readonly clockWentBack?: true;
}

/** A setting's value in words: `8 clicks from closed`; `unknown` where nobody wrote it down. */
export function shownValue(value: Value | undefined, unit: string | undefined): string {
  return value === undefined ? 'unknown' : valueWords(value, unit);
}

/** The entry that a log begins with, and may begin again with: where the sheet says everything stands. */
export function stockTaking(sheet: BikeSheet, reason = 'as the sheet has it'): EntryDraft {
  const changes = standsOf(sheet).map(({ value, ...rest }) => ({ ...rest, to: value }));
  return { kind: 'start', changes, reason };
}

/** Whether nothing was counted or set so far: words alone are no way back. */
export function neverCounted(entries: readonly Entry[]): boolean {
  return entries.every(({ kind }) => kind === 'note');
}

/** @param file full path of its answers @param stop it found that the bike must not be ridden */
export function keptNote(id: string, file: string, stop: boolean): EntryDraft {
  return {
    kind: 'note',
    reason: stop ? 'an interview found a danger: do not ride this bike' : 'an interview about this bike',
    case: id,
    kept: { file, stop },
  };
}
