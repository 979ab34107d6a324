/** Where the logs of all bikes live, and their sheets: asked at many starts, so that nothing is loaded for it. */
import { lstatSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import envPaths from 'env-paths';
import { LogError } from '../disk/errors.ts';
import { safeName } from '../disk/safe-name.ts';

/**
 * `EARSHOT_HOME` if set, else the platform's own place for data.
 * @throws LogError when it is named from a working folder that was removed
 */
export function logHome(env: Readonly<Record<string, string | undefined>>): string {
  const chosen = env['EARSHOT_HOME']?.trim();
  try {
    return resolve(chosen || envPaths('earshot', { suffix: '' }).data);
  } catch (error) {
    throw new LogError(
      'gone',
      `The folder you are in was removed, and the log's place is named from it: ${chosen}.`,
      'Change to another folder, or set EARSHOT_HOME to a whole path, from / on.',
      { cause: error },
    );
  }
}

/** False only where this bike surely has no log; whatever else is found is for those who open it to tell of. */
export function mayHaveLog(env: Readonly<Record<string, string | undefined>>, bike: string): boolean {
  try {
    lstatSync(join(logHome(env), 'bikes', safeName(bike, 'bike')));
    return true;
  } catch (error) {
    return !(error instanceof Error && 'code' in error && error.code === 'ENOENT');
  }
}

export const SHEET_PLACE = 'sheet-place';

/** Where the sheet of a bike was when its log was last written to; undefined when nobody knows. */
export function sheetPlace(home: string, bike: string): string | undefined {
  try {
    return readFileSync(join(home, 'bikes', safeName(bike, 'bike'), SHEET_PLACE), 'utf8').trim() || undefined;
  } catch {
    return undefined;
  }
}
