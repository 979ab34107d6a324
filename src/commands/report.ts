/** `earshot report CASE`: a pit sheet to hand over. */
import { createHash } from 'node:crypto';
import { realpath, stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { parseChange } from '../bike/change.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import type { Case } from '../casework/case.ts';
import { consult } from '../casework/consult.ts';
import { ImpossibleEvidence } from '../diagnosis/belief.ts';
import { LogError } from '../logbook/errors.ts';
import { replaceFile } from '../logbook/durable.ts';
import type { SheetPhysics } from '../report/pit-sheet-physics.ts';
import { pitSheet, type PitSheet } from '../report/pit-sheet.ts';
import { toResult, type Result } from '../report/result.ts';
import { openDesk } from './desk.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { readRecords, type CaseRecord } from './records.ts';

export interface ReportOptions {
  readonly file: string;
  readonly format: 'html' | 'markdown';
  readonly rules: readonly string[];
  readonly bike?: string | undefined;
  /** absent or `-`: standard output */
  readonly out?: string | undefined;
}

export async function report(options: ReportOptions, io: Io): Promise<ExitCode> {
  const path = options.out === undefined || options.out === '-' ? undefined : resolve(io.cwd, options.out);
  if (path !== undefined) await checkOut(path, options.out!, []);
  const desk = await openDesk(io, options.rules, options.bike);
  const record = await onlyRecord(options.file, io);
  const opened = await desk.open(record);
  if ('faults' in opened) {
    io.err(`${opened.faults.join('\n')}\n`);
    return EXIT.some;
  }
  for (const warning of opened.warnings) io.err(`${warning}\n`);
  const { kase, bench } = opened;
  const { rules } = desk;
  if (path !== undefined) await checkOut(path, options.out!, inputsOf(options, record, kase, io));
  let result: Result;
  try {
    const all = rules.causes.length;
    const consultation = consult(desk.model, bench, kase, { next: true, explain: all, fit: true });
    result = toResult(desk.model, bench, kase, consultation, {
      most: all,
      unconfirmed: await desk.unconfirmed(kase),
    });
  } catch (error) {
    if (!(error instanceof ImpossibleEvidence)) throw error;
    io.err(`${options.file}: ${error.message} Take one of them back.\n`);
    return EXIT.some;
  }
  const first = rules.adjustments.findIndex((a) => a.id === result.first);
  const sheet = pitSheet({
    rules,
    result,
    cures: first < 0 ? undefined : bench.effect(first).cures,
    sheet: bench.sheet,
    physics: await physicsOf(result, bench.sheet),
  });
  const text = await print(sheet, options.format);
  if (path === undefined) await io.out(text);
  else await write(path, text, options.out!);
  return EXIT.done;
}

async function print(sheet: PitSheet, format: ReportOptions['format']): Promise<string> {
  if (format === 'markdown') return (await import('../report/pit-sheet-markdown.ts')).pitSheetMarkdown(sheet);
  const { pitSheetHtml } = await import('../report/pit-sheet-html.ts');
  return pitSheetHtml(sheet, (text) => createHash('sha256').update(text).digest('base64'));
}

/** What the model of this bike says of the first change; null without a bike, or when nothing is turned. */
async function physicsOf(result: Result, sheet: BikeSheet | undefined): Promise<SheetPhysics | null> {
  const first = result.adjustments.find((a) => a.id === result.first);
  const change = parseChange(first?.change ?? '').changes[0];
  if (sheet === undefined || change === undefined || result.verdict !== 'change') return null;
  const [{ sheetBike }, { sheetPhysics }] = await Promise.all([
    import('./physics.ts'),
    import('../report/pit-sheet-physics.ts'),
  ]);
  return sheetPhysics(await sheetBike(sheet), change);
}

/** A pit sheet is for one case. */
async function onlyRecord(file: string, io: Io): Promise<CaseRecord> {
  let only: CaseRecord | undefined;
  for await (const record of readRecords([file], io)) {
    if (only !== undefined)
      throw new Refusal(
        `${file}: this holds more than one case, and a pit sheet is for one. Feed that one: earshot report - < CASE`,
      );
    only = record;
  }
  if (only === undefined) throw new Refusal(`${file}: there is no case in it.`);
  return only;
}

function inputsOf({ file, bike }: ReportOptions, record: CaseRecord, kase: Case, io: Io): string[] {
  return [
    ...(file === '-' ? [] : [resolve(io.cwd, file)]),
    ...(bike === undefined ? [] : [resolve(io.cwd, bike)]),
    ...(typeof kase.bike === 'string' ? [resolve(record.folder, kase.bike)] : []),
  ];
}

/** Refuses to put the sheet where something else is. @param inputs files that it is made from */
async function checkOut(path: string, out: string, inputs: readonly string[]): Promise<void> {
  const found = await stat(path).catch(() => undefined);
  if (found === undefined) return;
  if (found.isDirectory()) throw new Refusal(`${out}: this is a folder. Name a file in it.`);
  if (!found.isFile())
    throw new Refusal(`${out}: this is no plain file. Leave --out away to print to standard output.`);
  const real = await realpath(path);
  for (const input of inputs)
    if ((await realpath(input).catch(() => undefined)) === real)
      throw new Refusal(
        `${out}: the sheet would take the place of what it is made from. Choose another name.`,
      );
}

async function write(path: string, text: string, out: string): Promise<void> {
  try {
    await replaceFile(path, text);
  } catch (error) {
    if (!(error instanceof LogError)) throw error;
    const why = (error.cause as NodeJS.ErrnoException | undefined)?.code ?? error.code;
    throw new Refusal(
      why === 'ENOENT'
        ? `${out}: there is no such folder. Make it first, or choose another place with --out.`
        : `${out}: it cannot be written there (${why}). Choose another place with --out.`,
    );
  }
}
