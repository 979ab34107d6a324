/** One line a case, for a spreadsheet or a database; RFC 4180. No header is a word that SQL reserves. */
import { csvCell } from '../form/text.ts';
import { alarmsOf, alarmTexts } from './verdict/alarms.ts';
import type { Audience, WordedRules } from './evidence-words.ts';
import { firstOf, type Result } from './result/result.ts';
import { NO_WORDS } from './verdict/voice.ts';

const CSV_HEADER = [
  'case_id',
  'verdict',
  'first_step',
  'change_by',
  'set_from',
  'set_to',
  'helps',
  'harms',
  'benefit',
  'minutes',
  'nothing_off',
  'cause_1',
  'probability_1',
  'cause_2',
  'probability_2',
  'cause_3',
  'probability_3',
  'next_question',
  'stop_reason',
  'warnings',
] as const;

export function csvHeader(): string {
  return `${CSV_HEADER.join(',')}\n`;
}

/** A case that came to no result has its row all the same. @param why a line a fault */
export function csvFailed(id: string, why: readonly string[]): string {
  const cells = CSV_HEADER.map((column) =>
    column === 'case_id' ? id : column === 'verdict' ? 'failed' : column === 'warnings' ? why.join(' ') : '',
  );
  return `${cells.map(csvCell).join(',')}\n`;
}

/** @param rules for the words of what must be checked before riding: the first of the warnings */
export function csvReport(r: Result, audience: Audience, rules: WordedRules = NO_WORDS): string {
  const first = firstOf(r);
  const cells: (string | number | null | undefined)[] = [
    r.case,
    r.verdict,
    r.first,
    first?.change,
    first?.from,
    first?.to,
    first?.helps,
    first?.harms,
    first?.benefit,
    first?.minutes,
    r.nothing,
    ...[0, 1, 2].flatMap((i) => [r.causes[i]?.id, r.causes[i]?.probability]),
    r.next?.question,
    r.stop,
    [...alarmTexts(alarmsOf(r, rules, audience)), ...r.warnings].join(' '),
  ];
  return `${cells.map(csvCell).join(',')}\n`;
}
