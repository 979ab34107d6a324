/** What an interview begins from: a new case, or the file of a saved one, and the sheet of its bike. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { Refusal, type Io } from '../../host/io.ts';
import { shellPath } from '../../host/quoted.ts';
import { sheetOf } from '../../workspace/bikes/known-bikes.ts';
import { mayBeNamed } from '../../workspace/bikes/named-sheet.ts';
import { latestInterview } from '../../workspace/cases/autosave-path.ts';
import { keptCase } from '../../workspace/cases/kept-case.ts';
import { readRecords } from '../../workspace/cases/records.ts';
import type { CaseRecord } from '../../workspace/cases/case-texts.ts';
import type { InterviewOptions } from '../commands/interview.ts';

/** @returns the file to go on from, and whether it is one of the user's own that is gone on with in its place */
export function resumedFile(
  { resume }: InterviewOptions,
  io: Io,
): { readonly path: string; readonly own: boolean } | undefined {
  if (resume === undefined) return undefined;
  if (resume !== true) return { path: resolve(io.cwd, keptCase(resume, io)), own: false };
  const latest = latestInterview(io);
  if (latest === undefined)
    throw new Refusal('There is no saved interview. Name a case file: earshot interview --resume CASE.yaml');
  io.err(`Carrying on with ${shellPath(latest.path, io)}\n`);
  return latest;
}

export function newRecord(options: Pick<InterviewOptions, 'id'>, io: Io): CaseRecord {
  const id = options.id ?? `interview-${stamp(io.now())}`;
  return { name: id, folder: io.cwd, data: { case: 1, id, interview: { begun: io.now().toISOString() } } };
}

/** The one case of the file to go on from. */
export async function readOne(file: string, { resume }: InterviewOptions, io: Io): Promise<CaseRecord> {
  const shown = typeof resume === 'string' ? resume : file;
  let only: CaseRecord | undefined;
  for await (const record of readRecords([file], io)) {
    if (only !== undefined)
      throw new Refusal(`${shown}: there is more than one case in this file. An interview takes one.`);
    only = record;
  }
  if (only === undefined) throw new Refusal(`${shown}: there is no case in this file.`);
  return only;
}

/** The full path of the bike sheet: the case's own, with its log, goes before `--bike`. */
export function bikeOf(record: CaseRecord, { bike }: InterviewOptions, io: Io): string | undefined {
  const told = (record.data as { bike?: unknown } | null | undefined)?.bike;
  const isGone = bike !== undefined && typeof told === 'string' && !existsSync(resolve(record.folder, told));
  // Where its own is gone, the workspace says so, and takes the one of the line as this does.
  const own = isGone ? undefined : told;
  if (own !== undefined && own !== null && bike !== undefined)
    io.err(`${record.name}: this case has its own bike, so --bike ${bike} was not used.\n`);
  if (typeof own === 'string') {
    mayBeNamed(own, record.folder, bike === undefined ? undefined : sheetOf(bike, io), io);
    return resolve(record.folder, own);
  }
  return (own === undefined || own === null) && bike !== undefined
    ? resolve(io.cwd, sheetOf(bike, io))
    : undefined;
}

/** The mechanic's own clock, to the second, as part of a name. */
function stamp(now: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  const day = `${now.getFullYear()}${two(now.getMonth() + 1)}${two(now.getDate())}`;
  return `${day}-${two(now.getHours())}${two(now.getMinutes())}${two(now.getSeconds())}`;
}
