/** A bike as commands on its log need it: the sheet and its file, and its log. */
import { resolve } from 'node:path';
import type { BikeSheet } from '../bike/sheet.ts';
import { LogError } from '../logbook/errors.ts';
import { logHome } from '../logbook/home.ts';
import { openLog, type BikeLog } from '../logbook/log.ts';
import { finishSheet } from '../logbook/sheet-writing.ts';
import { Refusal, type Io } from './io.ts';
import { loadSheet } from './load-sheet.ts';
import { ownSettings } from './own-settings.ts';

export interface OpenBike {
  /** of the sheet's file */
  readonly path: string;
  readonly sheet: BikeSheet;
  readonly log: BikeLog;
}

/** @throws Refusal when the sheet cannot be read, or its log cannot */
export async function openBike(file: string, io: Io): Promise<OpenBike> {
  const own = await ownSettings(io);
  const before = await loadSheet(file, io.cwd, own);
  return await refusing(async () => {
    const log = await openLog(logHome(io.env), before.sheet.id, { now: io.now });
    const finished = await finishSheet(log);
    if (finished !== undefined) io.err(`${finished}\n`);
    const { sheet, warnings } = finished === undefined ? before : await loadSheet(file, io.cwd, own);
    for (const warning of warnings) io.err(`${warning}\n`);
    return { path: resolve(io.cwd, file), sheet, log };
  });
}

/** A log that cannot be read or written is one clear line, like any other file. */
export async function refusing<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof LogError) throw new Refusal(`${error.message} ${error.remedy}`);
    throw error;
  }
}
