/** The printed forms of results, by name. Each is text in, text out; none writes anything itself. */
import { csvFailed, csvHeader, csvReport } from './csv.ts';
import type { Audience, WordedRules } from './evidence-words.ts';
import { markdownReport } from './markdown.ts';
import { plainResult } from './plain-words.ts';
import type { Result } from './result/result.ts';
import type { Style } from './style.ts';
import { textReport } from './text.ts';

export interface Reporter {
  readonly begin: string;
  /** @param rules in the words of the bike of this result */
  readonly one: (result: Result, index: number, rules?: WordedRules) => string;
  /** of a case that came to no result, where the form has a place for that; `why` is a line a fault */
  readonly failed?: (id: string, why: readonly string[]) => string;
  readonly end: string;
}

export interface ReportOptions {
  readonly style: Style;
  readonly full: boolean;
  /** whose words the text forms use; data have both. Default: mechanic */
  readonly audience?: Audience;
  /** for the words of questions and answers */
  readonly rules?: WordedRules;
}

export const reporters = {
  text: ({ style, full, rules, audience = 'mechanic' }: ReportOptions): Reporter => ({
    begin: '',
    one(r, i, worded = rules) {
      const said = textReport(r, {
        style,
        full,
        audience,
        ...(worded === undefined ? {} : { rules: worded }),
      });
      return `${i === 0 ? '' : `\n${'-'.repeat(Math.min(40, style.width))}\n`}${said}`;
    },
    end: '',
  }),
  json: (): Reporter => ({
    begin: '[',
    one: (r, i) => `${i === 0 ? '' : ','}\n${JSON.stringify(r, null, 2)}`,
    end: '\n]\n',
  }),
  ndjson: (): Reporter => ({ begin: '', one: (r) => `${JSON.stringify(r)}\n`, end: '' }),
  csv: ({ rules, audience = 'mechanic' }: ReportOptions): Reporter => ({
    begin: csvHeader(),
    one: (r, _, worded = rules) => csvReport(r, audience, worded),
    failed: csvFailed,
    end: '',
  }),
  markdown: ({ rules, audience = 'mechanic' }: ReportOptions): Reporter => ({
    begin: '',
    one: (r, _, worded = rules) =>
      markdownReport(
        audience === 'rider' && worded !== undefined ? plainResult(r, worded) : r,
        audience,
        worded,
      ),
    end: '',
  }),
} as const;

export type Format = keyof typeof reporters;
