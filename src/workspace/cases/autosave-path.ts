/** Which files an interview may be kept in, and the interview kept last. */
import { randomBytes } from 'node:crypto';
import { readdirSync, readFileSync, rmSync, statSync, writeFileSync, type Stats } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { makeFolders } from '../../disk/make-folders.ts';
import { Refusal, type Io } from '../../host/io.ts';
import type { Place } from './autosave.ts';
import { autosaveFolder } from './kept-case.ts';
import { quoted } from '../../host/quoted.ts';
import { PRIVATE } from '../../disk/atomic-file.ts';
import { realpath, reasonOf, replace } from '../../disk/save.ts';

/**
 * Looks before anything is asked whether `--save` can work.
 *
 * @param resumed the file the interview goes on from, which may be written over
 * @throws Refusal when the place is taken or cannot be written
 */
export function checkSave(path: string, shown: string, resumed: string | undefined): Place {
  const found = stat(path);
  if (found !== undefined && !found.isFile())
    throw new Refusal(
      `${shown}: a case cannot be saved in this kind of file. Choose another place with --save.`,
    );
  const ours = resumed !== undefined && realpath(resumed) === realpath(path);
  if (found !== undefined && found.size > 0 && !ours)
    throw new Refusal(
      `${shown}: this file exists already. Choose another name, or go on with it: earshot interview --resume ${quoted(shown)} --save ${quoted(shown)}`,
    );
  try {
    makeFolders(dirname(path));
    const aside = join(dirname(path), `.${basename(path)}.${randomBytes(8).toString('hex')}.aside`);
    writeFileSync(aside, '', { flag: 'wx' });
    rmSync(aside);
  } catch (error) {
    throw new Refusal(
      `${shown}: the case cannot be written here (${reasonOf(error)}). Choose another place with --save.`,
    );
  }
  return { path, how: found === undefined ? 'new' : 'replace' };
}

/** Beside the interviews kept without `--save`: which file of the user's own the last one with it was saved in. */
const ELSEWHERE = '.elsewhere';

/** Takes down that an interview is saved in a file of the user's own, so that it is found again without its name. */
export async function noteElsewhere(path: string, io: Io): Promise<void> {
  const folder = autosaveFolder(io);
  try {
    makeFolders(folder, 0o700);
    await replace(join(folder, ELSEWHERE), `${path}\n`, { durable: false, ...PRIVATE });
  } catch {
    // Without it the interview is found by its name all the same.
  }
}

/**
 * The interview that was answered last, whichever way it was saved; undefined when there is none.
 * @returns its file, and whether that is one of the user's own
 */
export function latestInterview(io: Io): { readonly path: string; readonly own: boolean } | undefined {
  const folder = autosaveFolder(io);
  const kept = namesIn(folder).map((name) => ({ path: join(folder, name), own: false }));
  return [...kept, ...elsewhere(folder)]
    .map((one) => ({ ...one, time: stat(one.path)?.mtimeMs ?? -Infinity }))
    .filter(({ time }) => time > -Infinity)
    .toSorted((a, b) => b.time - a.time)[0];
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder).filter((name) => name.endsWith('.yaml') && !name.startsWith('.'));
  } catch {
    return [];
  }
}

function elsewhere(folder: string): { readonly path: string; readonly own: boolean }[] {
  try {
    return [{ path: readFileSync(join(folder, ELSEWHERE), 'utf8').trim(), own: true }];
  } catch {
    return [];
  }
}

/** An id as a file name: no folders, no odd signs, never empty, never long. */
export function fileName(id: string): string {
  const name = id
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/^[.-]+/, '')
    .slice(0, 80);
  return name === '' ? 'case' : name;
}

function stat(path: string): Stats | undefined {
  try {
    return statSync(path);
  } catch {
    // Not there, or not to be reached: writing tells which.
    return undefined;
  }
}
