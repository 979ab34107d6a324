/** `earshot explain CASE [CAUSE]`: the evidence for and against. */
import { consult } from '../casework/consult.ts';
import { conflict } from '../diagnosis/fit.ts';
import { caseSensitivity } from '../evaluation/sensitivity.ts';
import type { Audience } from '../report/evidence-words.ts';
import { explainReport } from '../report/explain.ts';
import { plainResult, plainRules } from '../report/plain-words.ts';
import { toResult } from '../report/result.ts';
import { caseSensitivityData, caseSensitivityLines } from '../report/sensitivity-text.ts';
import type { Style } from '../report/style.ts';
import { didYouMean } from '../rulebase/suggest.ts';
import { openDesk } from './desk.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { readRecords } from './records.ts';
import { sayHistory } from './say-history.ts';

export interface ExplainOptions {
  readonly file: string;
  readonly cause?: string | undefined;
  readonly rules: readonly string[];
  readonly bike?: string | undefined;
  /** whether earlier trials in the log of the bike count; default true */
  readonly log?: boolean;
  readonly format: 'text' | 'json';
  /** also Jensen's conflict measure */
  readonly conflict: boolean;
  /** for the text: whose words */
  readonly audience?: Audience;
  readonly style: Style;
}

export async function explain(options: ExplainOptions, io: Io): Promise<ExitCode> {
  const desk = await openDesk(io, options.rules, options.bike, options.log ?? true);
  const { model, rules } = desk;
  if (options.cause !== undefined && !model.causeIndex.has(options.cause)) {
    throw new Refusal(
      `There is no cause ${options.cause}. ${didYouMean(options.cause, model.causeIndex.keys()) || 'See earshot rules show causes.'}`,
    );
  }
  let failed = 0;
  let unreadable = false;
  for await (const record of readRecords([options.file], io)) {
    const opened = await desk.open(record);
    if ('faults' in opened) {
      failed++;
      unreadable ||= record.unreadable === true;
      io.err(`${opened.faults.join('\n')}\n`);
      continue;
    }
    const { kase, bench, history } = opened;
    for (const warning of opened.warnings) io.err(`${warning}\n`);
    sayHistory(history, io);
    const all = rules.causes.length;
    const consultation = consult(model, bench, kase, { next: true, explain: all, fit: true });
    const result = toResult(model, bench, kase, consultation, { most: all });
    const wanted =
      options.cause === undefined
        ? result.causes.slice(0, 3)
        : result.causes.filter((c) => c.id === options.cause);
    const bits = options.conflict ? conflict(model, bench.prior, consultation.heard.evidence) : undefined;
    const tipping = caseSensitivity(model, bench, kase);
    const priors = Object.fromEntries(rules.causes.map((c) => [c.id, c.prior]));
    if (options.format === 'json')
      await io.out(
        `${JSON.stringify({ format: 1, case: kase.id, causes: wanted, fit: result.fit, ...(bits === undefined ? {} : { conflict: bits }), sensitivity: caseSensitivityData(rules, tipping) }, null, 2)}\n`,
      );
    else {
      const plainly = options.audience === 'rider';
      const shown = plainly ? plainResult(result, bench.rules) : result;
      const named = new Set(wanted.map((c) => c.id));
      const list = shown.causes.filter((c) => named.has(c.id));
      const worded = plainly ? plainRules(bench.rules) : bench.rules;
      const hanging = plainly ? [] : caseSensitivityLines(worded, tipping, options.style.width);
      await io.out(
        explainReport(worded, shown, list, priors, bits, hanging, { style: options.style, ids: !plainly }),
      );
    }
  }
  return failed === 0 ? EXIT.done : unreadable ? EXIT.usage : EXIT.some;
}
