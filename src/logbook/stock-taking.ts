/** The entry that a log begins with, and may begin again with: where the sheet says everything stands. */
import type { BikeSheet } from '../bike/sheet.ts';
import { standsOf } from '../bike/stands.ts';
import type { EntryDraft } from './entry.ts';

export function stockTaking(sheet: BikeSheet, reason = 'as the sheet has it'): EntryDraft {
  const changes = standsOf(sheet).map(({ value, ...rest }) => ({ ...rest, to: value }));
  return { kind: 'start', changes, reason };
}
