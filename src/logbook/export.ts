/** The history for other tools. */
import { printDeed } from '../bike/deed.ts';
import { csvCell } from '../form/text.ts';
import type { Entry } from './entry.ts';
import { asWritten } from './entry-form.ts';

/** No header is a word that SQL reserves. */
const COLUMNS = [
  'entry',
  'logged_at',
  'kind',
  'setting',
  'set_from',
  'set_to',
  'unit',
  'outcome',
  'reason',
  'case_id',
  'trial',
  'undoes',
] as const;

/** RFC 4180, a row a setting; an entry without one has a row of its own. */
export function historyCsv(entries: readonly Entry[]): string {
  const rows = entries.flatMap((entry) => {
    const changes = entry.changes ?? [
      {
        setting: entry.result?.setting,
        from: undefined,
        to: entry.result?.change && printDeed(entry.result.change),
        unit: undefined,
      },
    ];
    return changes.map(({ setting, from, to, unit }) => [
      entry.entry,
      entry.at,
      entry.kind,
      setting,
      from,
      to,
      unit,
      entry.result?.outcome,
      entry.reason,
      entry.case,
      entry.trial,
      entry.undoes,
    ]);
  });
  return [COLUMNS, ...rows].map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

/** One object, versioned. */
export function historyJson(bike: string, entries: readonly Entry[]): string {
  return `${JSON.stringify({ format: 1, bike, entries: entries.map(asWritten) }, null, 2)}\n`;
}
