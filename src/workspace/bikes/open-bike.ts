/** A bike as commands on its log need it: the sheet and its file, and its log. */
import { resolve } from 'node:path';
import type { BikeSheet } from '../../bike/sheet.ts';
import { LogError } from '../../disk/errors.ts';
import { logHome } from '../../logbook/home.ts';
import { openLog, type BikeLog } from '../../logbook/log.ts';
import { finishSheet, sheetBehind, type Finished } from '../../logbook/sheet-writing.ts';
import { whenUnsynced } from '../../disk/synced.ts';
import { EXIT, Refusal, type Io } from '../../host/io.ts';
import { remembering, sheetOf } from './known-bikes.ts';
import { loadSheet } from './load-sheet.ts';
import { ownSettings } from '../rules/own-settings.ts';
import { sheetFile } from './sheet-file.ts';
import { tellOnce } from './tell-once.ts';

export interface OpenBike {
  /** of the sheet's file */
  readonly path: string;
  readonly sheet: BikeSheet;
  readonly log: BikeLog;
}

/** A bike that is about to be written to. */
export interface WritableBike extends OpenBike {
  /** an interrupted write that was finished on opening */
  readonly finished?: Finished;
}

/** A bike to look at: nothing is written. @throws Refusal when the sheet cannot be read, or its log cannot */
export async function openBike(file: string, io: Io): Promise<OpenBike> {
  const bike = await opened(file, io);
  return await refusing(async () => {
    const behind = await sheetBehind(bike.log, bike.path);
    if (behind !== undefined) io.err(`${behind}\n`);
    return bike;
  });
}

/** A bike to write to: what an interrupted write left is finished first. A sheet that cannot be written is told of. */
export async function openToWrite(file: string, io: Io): Promise<WritableBike> {
  const bike = await opened(file, io);
  const writable = { ...bike, log: remembering(bike.log, bike.path) };
  try {
    const finished = await finishSheet(bike.log, sheetFile(bike.path, bike.sheet.settings));
    if (finished === undefined) return writable;
    if (finished.said !== undefined) io.err(`${finished.said}\n`);
    return {
      ...writable,
      sheet: (await loadSheet(bike.path, io.cwd, bike.sheet.settings ?? [])).sheet,
      finished,
    };
  } catch (error) {
    if (!(error instanceof LogError)) throw error;
    io.err(`${error.message} ${error.remedy}\n`);
    return writable;
  }
}

/** @param named a file, or the id of a bike the program knows */
async function opened(named: string, io: Io): Promise<OpenBike> {
  const file = sheetOf(named, io);
  const { sheet, warnings } = await loadSheet(file, io.cwd, await ownSettings(io));
  for (const warning of warnings) io.err(`${warning}\n`);
  whenUnsynced((line) => io.err(`${line}\n`));
  return await refusing(async () => {
    const log = await openLog(logHome(io.env), sheet.id, {
      now: io.now,
      own: sheet.settings,
      tell: tellOnce(io),
    });
    return { path: resolve(io.cwd, file), sheet, log };
  });
}

/** A log that cannot be read or written is one clear line, like any other file. */
export async function refusing<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof LogError)
      throw new Refusal(
        `${error.message} ${error.remedy}`,
        // Nothing was asked for wrongly: it only could not be done now, or not all of it.
        error.code === 'busy' || error.code === 'sheet-behind' ? EXIT.some : EXIT.usage,
      );
    throw error;
  }
}
