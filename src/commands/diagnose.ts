/** `earshot diagnose`: saved cases → ranked adjustments. */
import { consult, roomFor } from '../casework/consult.ts';
import { ImpossibleEvidence } from '../diagnosis/belief.ts';
import { historyText } from '../report/history-text.ts';
import { reporters, type Format } from '../report/reporters.ts';
import { toResult } from '../report/result.ts';
import type { Style } from '../report/style.ts';
import { openDesk } from './desk.ts';
import { EXIT, type ExitCode, type Io } from './io.ts';
import { withKnockOn } from './with-knock-on.ts';
import { readRecords } from './records.ts';

export interface DiagnoseOptions {
  readonly files: readonly string[];
  readonly format: Format;
  readonly rules: readonly string[];
  readonly bike?: string | undefined;
  /** whether earlier trials in the log of `bike` count; default true */
  readonly log?: boolean;
  readonly full: boolean;
  /** for json, ndjson, csv: rank the open questions too */
  readonly next: boolean;
  /** for json, ndjson: the effect of every answer */
  readonly explain: boolean;
  readonly style: Style;
}

export async function diagnose(options: DiagnoseOptions, io: Io): Promise<ExitCode> {
  const desk = await openDesk(io, options.rules, options.bike, options.log ?? true);
  const reporter = reporters[options.format]({ style: options.style, full: options.full });
  const forPeople = options.format === 'text' || options.format === 'markdown' || options.format === 'json';
  // In a text the history has a section of its own; as data it goes with the warnings.
  const inSection = options.format === 'text' || options.format === 'markdown';
  const wishes = {
    next: options.next || forPeople,
    explain: options.explain || forPeople ? 5 : 0,
    fit: options.next || options.explain || forPeople,
    room: roomFor(desk.model),
  };
  let failed = 0;
  let count = 0;
  if (reporter.begin !== '') await io.out(reporter.begin);
  for await (const record of readRecords(options.files, io)) {
    const opened = await desk.open(record);
    if ('faults' in opened) {
      failed++;
      io.err(`${opened.faults.join('\n')}\n`);
      continue;
    }
    for (const warning of opened.warnings) io.err(`${warning}\n`);
    try {
      const consultation = consult(desk.model, opened.bench, opened.kase, wishes);
      const told = toResult(desk.model, opened.bench, opened.kase, consultation, {
        most: options.full ? 12 : 3,
        ...(inSection ? {} : { warnings: opened.history }),
        ...(opened.kase.said === undefined ? {} : { unconfirmed: await desk.unconfirmed(opened.kase) }),
      });
      // The model run takes as long as hundreds of cases, so it is for people, and for a bike that is known or asked about.
      const modelled = forPeople && (options.full || opened.bench.sheet !== undefined);
      const result = modelled ? await withKnockOn(told, desk, opened.bench.sheet) : told;
      // What the bike's earlier trials said is said once, not once a case.
      const news = count === 0 ? [] : opened.history;
      for (const warning of result.warnings.filter((w) => !news.includes(w)))
        io.err(`${record.name}: ${warning}\n`);
      const written = io.out(reporter.one(result, count++));
      if (written !== undefined) await written;
      if (inSection && opened.history.length > 0) await io.out(historyText(opened.history, options.style));
    } catch (error) {
      if (!(error instanceof ImpossibleEvidence)) throw error;
      failed++;
      io.err(`${record.name}: ${error.message} Take one of them back.\n`);
    }
  }
  if (reporter.end !== '') await io.out(reporter.end);
  return failed === 0 ? EXIT.done : EXIT.some;
}
