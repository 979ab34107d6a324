/** Writes a file of the user's own, whole or not at all, and never over another one unasked. */
import { access, constants, lstat, realpath, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { sweepBeside } from './aside.ts';
import { createFile, replaceFile } from './atomic-file.ts';
import { whenUnsynced } from './synced.ts';
import { Refusal, type Io } from '../host/io.ts';
import { LogError } from './errors.ts';

/** @throws Refusal when it is there already, or cannot be written; what was there is unharmed then */
export async function writeNew(path: string, text: string, force: boolean, io: Io): Promise<void> {
  await refuseExisting(path, force, io);
  whenUnsynced((line) => io.err(`${line}\n`));
  try {
    await (force ? replaceFile : createFile)(resolve(io.cwd, path), text);
  } catch (error) {
    if (!(error instanceof LogError)) throw error;
    // Written by somebody else since it was looked for.
    if ((error.cause as NodeJS.ErrnoException | undefined)?.code === 'EEXIST') throw isThere(path);
    const remedy = error.code === 'disk-full' ? 'Free some space and try again.' : 'Choose another place.';
    throw new Refusal(`${path} cannot be written: ${error.message} ${remedy}`);
  }
}

/** @throws Refusal when something is there and was not to be written over */
export async function refuseExisting(path: string, force: boolean, io: Io): Promise<void> {
  await sweepBeside(resolve(io.cwd, path));
  const found = await lstat(resolve(io.cwd, path)).catch(() => undefined);
  if (found?.isDirectory() === true) throw new Refusal(`${path} is a folder. Name a file in it.`);
  if (found !== undefined && !force) throw isThere(path);
}

function isThere(path: string): Refusal {
  return new Refusal(`${path} already exists. Choose another name, or overwrite it with --force.`);
}

/** Whether a new file can be written, before a user is asked for what shall be in it. @throws Refusal when it cannot */
export async function mayBeNew(path: string, force: boolean, io: Io): Promise<void> {
  await refuseExisting(path, force, io);
  const folder = dirname(resolve(io.cwd, path));
  try {
    await access(folder, constants.W_OK | constants.X_OK);
    if (!(await stat(folder)).isDirectory()) throw new Error('a file');
  } catch {
    throw new Refusal(
      `${path} cannot be written: ${folder} is not a folder, or you may not write in it. Choose another place.`,
    );
  }
}

/** @throws Refusal when a file that is to be replaced cannot be: better before anything else is written */
export async function mayBeWritten(path: string): Promise<void> {
  try {
    const file = await realpath(path);
    await access(file, constants.W_OK);
    await access(dirname(file), constants.W_OK);
  } catch {
    throw new Refusal(
      `${path} may not be written, or not in its folder. Allow it and try again; nothing was changed.`,
    );
  }
}
