/**
 * The bike sheet that a case names. A case may be from anybody, so what it names is opened only where sheets are expected:
 * in the folder of the case, in the one the program was started in, or where the line allows it.
 */
import { realpathSync, statSync } from 'node:fs';
import { isAbsolute, join, relative, resolve, sep } from 'node:path';
import { Refusal, type Io } from '../../host/io.ts';
import { ROOT } from '../../host/root.ts';
import { autosaveFolder } from '../cases/kept-case.ts';

/**
 * @param path as the case has it
 * @param folder of the case
 * @param given the sheet that the line itself names: a case may name the same
 * @throws Refusal when it is outside, or when it is not there
 */
export function mayBeNamed(path: string, folder: string, given: string | undefined, io: Io): void {
  const real = realOf(resolve(folder, path));
  if (real === undefined) return; // Reading it says why it is not there.
  if (given !== undefined && real === realOf(resolve(io.cwd, given))) return;
  if (!statSync(real).isFile()) throw new Refusal(`${path}: this is not a regular file. Name a bike sheet.`);
  // What the program keeps itself names the sheet that the user opened, wherever that is.
  if (realOf(folder) === realOf(autosaveFolder(io))) return;
  const roots = [
    folder,
    io.cwd,
    ...(io.bikes ?? []).map((one) => resolve(io.cwd, one)),
    join(ROOT, 'examples'),
  ];
  if (roots.some((root) => isInside(real, realOf(root)))) return;
  throw new Refusal(
    `${path}: this file is not in the folder of the case, nor in the one you started earshot in, so it was not opened. If it is a bike sheet, allow its folder: earshot --bikes FOLDER.`,
  );
}

function realOf(path: string): string | undefined {
  try {
    return realpathSync(path);
  } catch {
    return undefined;
  }
}

function isInside(path: string, root: string | undefined): boolean {
  if (root === undefined) return false;
  const way = relative(root, path);
  return way !== '' && way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}
