/** Which files an interview may be kept in, and the interview kept last. */
import { randomBytes } from 'node:crypto';
import { readdirSync, rmSync, statSync, writeFileSync, type Stats } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { makeFolders } from '../../disk/make-folders.ts';
import { Refusal, type Io } from '../../host/io.ts';
import type { Place } from './autosave.ts';
import { autosaveFolder } from './kept-case.ts';
import { quoted } from '../../host/quoted.ts';
import { realpath, reasonOf } from '../../disk/save.ts';

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

/** The interview kept last; undefined when there is none. */
export function latestAutosave(io: Io): string | undefined {
  const folder = autosaveFolder(io);
  let names: string[];
  try {
    names = readdirSync(folder).filter((name) => name.endsWith('.yaml') && !name.startsWith('.'));
  } catch {
    return undefined;
  }
  return names
    .map((name) => ({ path: join(folder, name), time: statSync(join(folder, name)).mtimeMs }))
    .sort((a, b) => b.time - a.time)[0]?.path;
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
