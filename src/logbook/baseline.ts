/** The entry that a log begins with, and may begin again with: where the sheet says everything stands. */
import type { BikeSheet } from '../bike/sheet.ts';
import { standsOf } from '../bike/setting-values.ts';
import type { Entry, EntryDraft } from './entry.ts';

export function stockTaking(sheet: BikeSheet, reason = 'as the sheet has it'): EntryDraft {
  const changes = standsOf(sheet).map(({ value, ...rest }) => ({ ...rest, to: value }));
  return { kind: 'start', changes, reason };
}

/** Whether nothing was counted or set so far: words alone are no way back. */
export function neverCounted(entries: readonly Entry[]): boolean {
  return entries.every(({ kind }) => kind === 'note');
}
