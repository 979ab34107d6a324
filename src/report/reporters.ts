/** The printed forms of results, by name. Each is text in, text out; none writes anything itself. */
import { csvHeader, csvReport } from './csv.ts';
import type { WordedRules } from './evidence-words.ts';
import { markdownReport } from './markdown.ts';
import type { Result } from './result.ts';
import type { Style } from './style.ts';
import { textReport } from './text.ts';

export interface Reporter {
  readonly begin: string;
  readonly one: (result: Result, index: number) => string;
  readonly end: string;
}

export interface ReportOptions {
  readonly style: Style;
  readonly full: boolean;
  /** for the words of questions and answers */
  readonly rules?: WordedRules;
}

export const reporters = {
  text: ({ style, full, rules }: ReportOptions): Reporter => ({
    begin: '',
    one: (r, i) =>
      `${i === 0 ? '' : `\n${'-'.repeat(Math.min(40, style.width))}\n`}${textReport(r, { style, full, ...(rules === undefined ? {} : { rules }) })}`,
    end: '',
  }),
  json: (): Reporter => ({
    begin: '[',
    one: (r, i) => `${i === 0 ? '' : ','}\n${JSON.stringify(r, null, 2)}`,
    end: '\n]\n',
  }),
  ndjson: (): Reporter => ({ begin: '', one: (r) => `${JSON.stringify(r)}\n`, end: '' }),
  csv: (): Reporter => ({ begin: csvHeader(), one: csvReport, end: '' }),
  markdown: (): Reporter => ({ begin: '', one: markdownReport, end: '' }),
} as const;

export type Format = keyof typeof reporters;
