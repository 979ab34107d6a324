/** An interview that is kept with the logs is called by its name, as a bike is by its id. */
import { existsSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { logHome } from '../../logbook/home.ts';
import { quoted, shellPath } from '../../host/quoted.ts';
import type { Io } from '../../host/io.ts';

const FOLDER = 'interviews';
const ENDING = '.yaml';

/** The folder of interviews kept without `--save`. */
export function autosaveFolder({ env }: Pick<Io, 'env'>): string {
  return join(logHome(env), FOLDER);
}

/** The file that is meant: the one of that name, else the kept interview of that name. */
export function keptCase(file: string, io: Pick<Io, 'cwd' | 'env'>): string {
  if (basename(file) !== file || existsSync(resolve(io.cwd, file))) return file;
  const kept = join(autosaveFolder(io), file.endsWith(ENDING) ? file : `${file}${ENDING}`);
  return existsSync(kept) ? kept : file;
}

/** The name by which a kept interview is found again; of any other file its path. */
export function caseName(path: string, io: Pick<Io, 'cwd' | 'env'>): string {
  const name = basename(path, ENDING);
  return dirname(path) !== autosaveFolder(io) || existsSync(resolve(io.cwd, name)) ? path : name;
}

/** A case in a command that is printed, as short as it is found again. */
export function caseWord(path: string, io: Pick<Io, 'cwd' | 'env'>): string {
  const name = caseName(path, io);
  return name === path ? shellPath(path, io) : quoted(name);
}
