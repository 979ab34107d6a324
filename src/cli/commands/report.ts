/** `earshot report CASE`: a pit sheet to hand over. */
import { arg, command, flag, format, text, unless, whom, type Given, type Here } from '../takes.ts';
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { lstat, realpath, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Case } from '../../casework/case.ts';
import { ImpossibleEvidence } from '../../diagnosis/belief.ts';
import { sweepBeside } from '../../disk/aside.ts';
import { writeNew } from '../../disk/write-new.ts';
import type { SheetPhysics } from '../../report/pit-sheet/physics.ts';
import { plainResult, plainRules } from '../../report/plain-words.ts';
import { changeOf, firstOf, type Result } from '../../report/result/result.ts';
import type { Entered } from '../../report/pit-sheet/trial.ts';
import { pitSheet, type PitSheet } from '../../report/pit-sheet/pit-sheet.ts';
import { resultKeeper } from '../../workspace/cases/kept-by-content.ts';
import { openWorkspace } from '../../workspace/workspace.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../host/io.ts';
import { packArgs, quoted, shellPath } from '../../host/quoted.ts';
import { readRecords } from '../../workspace/cases/records.ts';
import type { CaseRecord } from '../../workspace/cases/case-texts.ts';
import { keptCase } from '../../workspace/cases/kept-case.ts';
import { sheetOf } from '../../workspace/bikes/known-bikes.ts';
import { sayHistory } from '../../workspace/bikes/say-history.ts';

const args = { case: arg('a case file, or - for standard input') };
const options = {
  format: format('html', 'markdown'),
  out: text('file', 'write it here; without it, or with -, to standard output'),
  force: flag('overwrite an existing file'),
  bike: text('file', 'bike sheet for a case that names none'),
  log: unless('leave out what was tested on the bike before'),
  for: whom('trade words for a mechanic, plain words for a rider'),
};
type Options = Given<typeof args & typeof options>;

export const reportCommand = command({
  about: 'a pit sheet to hand over: one page with the first change, the reasons, and a trial to fill in',
  args,
  options,
  examples: [['earshot report case.yaml --bike my-bike.yaml --out sheet.html', 'one page to print']],
  run: report,
});

async function report(options: Options, { io, rules: packs }: Here): Promise<ExitCode> {
  const path = options.out === undefined || options.out === '-' ? undefined : resolve(io.cwd, options.out);
  const place = path === undefined ? [] : await placeFaults(path, options.out!, options.force);
  const workspace = await openWorkspace(io, packs, options.bike, options.log);
  const keep = resultKeeper(io);
  const record = await onlyRecord(options.case, io);
  const opened = await workspace.open(record);
  if ('faults' in opened) {
    io.err(`${[...opened.faults, ...place].join('\n')}\n`);
    return record.unreadable === true ? EXIT.usage : EXIT.some;
  }
  for (const warning of opened.warnings) io.err(`${warning}\n`);
  const { kase, bench, history } = opened;
  sayHistory(history, io);
  const { rules } = bench;
  if (path !== undefined) await refuseInput(path, options.out!, inputsOf(options, record, kase, io));
  if (place.length > 0) throw new Refusal(place.join('\n'));
  let result: Result;
  try {
    const all = rules.causes.length;
    result = await keep([workspace.model, bench, kase, 'report'], async () => {
      const { consult, toResult } = await import('../../report/result/worked-out.ts');
      const consultation = consult(workspace.model, bench, kase, { next: true, explain: all, fit: true });
      return toResult(workspace.model, kase, consultation, {
        most: all,
        ...(await workspace.said(kase)),
      });
    });
  } catch (error) {
    if (!(error instanceof ImpossibleEvidence)) throw error;
    io.err(`${options.case}: ${error.message} Change one of them.\n`);
    return EXIT.some;
  }
  const plainly = options.for === 'rider';
  const sheet = pitSheet({
    rules: plainly ? plainRules(rules) : rules,
    result: plainly ? plainResult(result, rules) : result,
    plain: plainly,
    sheet: bench.sheet,
    physics: plainly ? null : await physicsOf(result, bench.sheet, io),
    entered: enteredBy(options, record, result, io),
  });
  const text = await print(sheet, options.format);
  if (path === undefined) await io.out(text);
  else await writeNew(options.out!, text, options.force, io);
  return EXIT.done;
}

async function print(sheet: PitSheet, format: Options['format']): Promise<string> {
  if (format === 'markdown')
    return (await import('../../report/pit-sheet/markdown.ts')).pitSheetMarkdown(sheet);
  const { pitSheetHtml } = await import('../../report/pit-sheet/html.ts');
  return pitSheetHtml(sheet, (text) => createHash('sha256').update(text).digest('base64'));
}

/** What the model of this bike says of the first change; null without a bike, or when nothing is turned. */
async function physicsOf(result: Result, sheet: BikeSheet | undefined, io: Io): Promise<SheetPhysics | null> {
  const first = firstOf(result);
  const change = first === undefined ? undefined : changeOf(first);
  if (sheet === undefined || change === undefined || result.verdict !== 'change') return null;
  return (await import('../../workspace/physics.ts')).drawnOf(io, sheet, change);
}

/** The lines that take a trial on paper into the log, with the names this sheet was made from. */
function enteredBy(
  { case: file, bike }: Options,
  record: CaseRecord,
  result: Result,
  io: Io,
): Entered | undefined {
  const { bike: named } = record.data as { readonly bike?: unknown };
  const own = typeof named === 'string' ? resolve(record.folder, named) : undefined;
  const sheet = own !== undefined && existsSync(own) ? shellPath(own, io) : bike && quoted(bike);
  const change = firstOf(result)?.change;
  const what = file === '-' ? change && `--change ${quoted(change)}` : `--case ${quoted(file)}`;
  if (sheet === undefined || what == null) return undefined;
  const packs = packArgs(io.packs);
  return {
    plan: `earshot trial plan --bike ${sheet} ${what}${packs}`,
    record: `earshot trial record --bike ${sheet}${packs}`,
  };
}

/** A pit sheet is for one case. */
async function onlyRecord(file: string, io: Io): Promise<CaseRecord> {
  let only: CaseRecord | undefined;
  for await (const record of readRecords([file], io)) {
    if (only !== undefined)
      throw new Refusal(
        `${file}: this holds more than one case, and a pit sheet is for one. Put the one you mean into a file of its own, or send it alone: earshot report - < CASE`,
      );
    only = record;
  }
  if (only === undefined) throw new Refusal(`${file}: there is no case in it.`);
  return only;
}

/** Found as they were read: an interview by its name, a bike by its id. */
function inputsOf({ case: file, bike }: Options, record: CaseRecord, kase: Case, io: Io): string[] {
  return [
    ...(file === '-' ? [] : [resolve(io.cwd, keptCase(file, io))]),
    ...(bike === undefined ? [] : [resolve(io.cwd, sheetOf(bike, io))]),
    ...(typeof kase.bike === 'string' ? [resolve(record.folder, kase.bike)] : []),
  ];
}

/** What speaks against a new file in that place. */
async function placeFaults(path: string, out: string, force: boolean): Promise<string[]> {
  await sweepBeside(path);
  if ((await lstat(path).catch(() => undefined)) === undefined) {
    const folder = await stat(dirname(path)).catch(() => undefined);
    return folder?.isDirectory() === true ? [] : [noFolder(out)];
  }
  const found = await stat(path).catch(() => undefined);
  if (found?.isDirectory() === true) return [`${out}: this is a folder. Name a file.`];
  if (found?.isFile() === false)
    return [`${out}: this is not a regular file. Leave out --out to print to standard output.`];
  return force ? [] : [`${out} already exists. Choose another name, or overwrite it with --force.`];
}

function noFolder(out: string): string {
  return `${out}: there is no such folder. Make it first, or choose another place with --out.`;
}

/** Not even with --force. @param inputs files that the sheet is made from */
async function refuseInput(path: string, out: string, inputs: readonly string[]): Promise<void> {
  const real = await realpath(path).catch(() => undefined);
  if (real === undefined) return;
  for (const input of inputs)
    if ((await realpath(input).catch(() => undefined)) === real)
      throw new Refusal(`${out}: this would overwrite what the sheet is made from. Choose another name.`);
}
