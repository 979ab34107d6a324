/**
 * Writing so that a kill, a power cut or a full disk leaves the old state or the new one, never a half.
 *
 * Not write-file-atomic: on a nearly full disk a write may store only its first part and report no error; that
 * library does not look at the count, and puts the short file in place of the good one (seen with version 6.0.0).
 */
import { constants } from 'node:fs';
import { open, readdir, readFile, rename, rm, type FileHandle } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { asLogError } from './errors.ts';
import { makeFolders } from './make-folders.ts';

const ASIDE = /^\..+\.aside$/;
let count = 0;

/** Replaces a file in one step. @throws LogError with the old file unharmed */
export async function replaceFile(path: string, text: string): Promise<void> {
  count += 1;
  const aside = join(dirname(path), `.${basename(path)}.${process.pid}-${count}.aside`);
  try {
    const file = await open(aside, 'wx', 0o644);
    try {
      await file.writeFile(text); // writes on until all of it is stored, or throws
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(aside, path);
    await syncFolder(dirname(path));
  } catch (error) {
    await rm(aside, { force: true }).catch(() => undefined);
    throw asLogError(error, path);
  }
}

/**
 * Adds to the end of a file and waits until it is on the disk. If not all of it fits, the part that did is taken
 * back. A link in the file's place is refused: the log writes to no file outside its folder.
 */
export async function appendToFile(path: string, text: string): Promise<void> {
  const flags = constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0);
  try {
    const file = await open(path, flags, 0o644);
    try {
      const before = (await file.stat()).size;
      await appendOrTakeBack(file, text, before);
    } finally {
      await file.close();
    }
    await syncFolder(dirname(path));
  } catch (error) {
    throw asLogError(error, path);
  }
}

async function appendOrTakeBack(file: FileHandle, text: string, before: number): Promise<void> {
  try {
    await file.writeFile(text);
    await file.sync();
  } catch (error) {
    await file.truncate(before).catch(() => undefined); // what stays after all is a torn end, and found as one
    throw error;
  }
}

/** Cuts a file to so many bytes and waits until that is on the disk. */
export async function cutFile(path: string, bytes: number): Promise<void> {
  try {
    const file = await open(path, 'r+');
    try {
      await file.truncate(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
  } catch (error) {
    throw asLogError(error, path);
  }
}

/** Makes a folder and those above it. @throws LogError */
export function makeFolder(path: string): void {
  try {
    makeFolders(path);
  } catch (error) {
    throw asLogError(error, path);
  }
}

/** A file's bytes; undefined when there is no such file. */
export async function readIfThere(path: string): Promise<Buffer | undefined> {
  try {
    return await readFile(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw asLogError(error, path);
  }
}

/** Removes what killed writers left beside their files. Only under the lock: a living writer has such a file too. */
export async function sweepAside(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names.filter((one) => ASIDE.test(one))) await rm(join(folder, name), { force: true });
}

/** A new name in a folder is safe only when the folder itself is on the disk; not every platform can ask for it. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => undefined);
  if (handle === undefined) return;
  await handle.sync().catch(() => undefined);
  await handle.close();
}
