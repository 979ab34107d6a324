/**
 * Writing so that a kill, a power cut or a full disk leaves the old state or the new one, never a half.
 *
 * Not write-file-atomic: on a nearly full disk a write may store only its first part and report no error; that
 * library does not look at the count, and puts the short file in place of the good one (seen with version 6.0.0).
 */
import { constants } from 'node:fs';
import { link, open, readFile, rename, rm, stat, type FileHandle } from 'node:fs/promises';
import { dirname } from 'node:path';
import { openAside } from './aside.ts';
import { asLogError } from './errors.ts';
import { makeFolders } from './make-folders.ts';
import { syncFolder, synced } from './synced.ts';

/** For files of the user's own; the umask takes from it. */
const USUAL = 0o666;
/** For what the program keeps: riders' answers are nobody else's business. */
export const PRIVATE = { mode: 0o600 } as const;

type Text = string | Uint8Array;

export interface WriteOptions {
  /** of a new file; by default that of any file of the user's own */
  readonly mode?: number;
  /** whether to wait until it is on the disk; by default it is waited for */
  readonly durable?: boolean;
}

/**
 * Replaces a file in one step. A file that was there keeps its rights.
 * @throws LogError with the old file unharmed
 */
export async function replaceFile(path: string, text: Text, options: WriteOptions = {}): Promise<void> {
  await throughAside(path, text, options, async (aside) => rename(aside, path));
}

/**
 * Puts a whole file where none is; of two that try at once one gets the name.
 * @throws LogError with the cause EEXIST when there is something
 */
export async function createFile(path: string, text: Text, options: WriteOptions = {}): Promise<void> {
  await throughAside(path, text, options, async (aside) => {
    try {
      await link(aside, path);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'EEXIST') throw error;
      // A disk without hard links: take the name first, then fill it in one step.
      await (await open(path, 'wx', options.mode ?? USUAL)).close();
      await rename(aside, path);
    }
  });
}

async function throughAside(
  path: string,
  text: Text,
  { mode = USUAL, durable = true }: WriteOptions,
  put: (aside: string) => Promise<void>,
): Promise<void> {
  let aside: string | undefined;
  try {
    const before = await stat(path).catch(() => undefined);
    const { file, name } = await openAside(path, before === undefined ? mode : PRIVATE.mode);
    aside = name;
    try {
      if (before?.isFile() === true) await file.chmod(before.mode & 0o7777).catch(() => undefined);
      await file.writeFile(text); // writes on until all of it is stored, or throws
      if (durable) await synced(file, path);
      // While it is open its lock says that it is no leftover; some platforms rename no open file.
      if (process.platform === 'win32') await file.close();
      await put(name);
    } finally {
      await file.close().catch(() => undefined);
    }
    if (durable) await syncFolder(dirname(path));
  } catch (error) {
    throw asLogError(error, path);
  } finally {
    if (aside !== undefined) await rm(aside, { force: true }).catch(() => undefined);
  }
}

/**
 * Adds to the end of a file and waits until it is on the disk. If not all of it fits, the part that did is taken
 * back. A link in the file's place is refused: the log writes to no file outside its folder.
 */
export async function appendToFile(path: string, text: string): Promise<void> {
  const flags = constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0);
  try {
    const file = await open(path, flags, PRIVATE.mode);
    try {
      const before = (await file.stat()).size;
      await appendOrTakeBack(file, path, text, before);
    } finally {
      await file.close();
    }
    await syncFolder(dirname(path));
  } catch (error) {
    throw asLogError(error, path);
  }
}

async function appendOrTakeBack(file: FileHandle, path: string, text: string, before: number): Promise<void> {
  try {
    await file.writeFile(text);
    await synced(file, path);
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
      await synced(file, path);
    } finally {
      await file.close();
    }
  } catch (error) {
    throw asLogError(error, path);
  }
}

/** Makes a folder of the log and those above it. @throws LogError */
export function makeFolder(path: string): void {
  try {
    makeFolders(path, 0o700);
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
