/** A folder of files that is there whole, or not at all. */
import { randomBytes } from 'node:crypto';
import { constants } from 'node:fs';
import { mkdir, open, readdir, rename, rm, rmdir, type FileHandle } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { tryFileLock } from '../disk/file-lock.ts';
import { syncFolder, synced } from '../disk/synced.ts';

/**
 * Fills a folder aside and gives it its name in one step. What killed writers of that folder left is removed first.
 * @param sign a file that `fill` writes; while it is locked, a writer lives
 * @throws the error of `fill`, or of the file system: nothing is left then
 */
export async function folderAside(
  path: string,
  sign: string,
  fill: (aside: string) => Promise<void>,
): Promise<void> {
  await sweep(path, sign);
  const aside = join(dirname(path), `.${basename(path)}.${randomBytes(8).toString('hex')}.aside`);
  await mkdir(aside);
  let held: FileHandle | undefined;
  try {
    held = await open(join(aside, sign), constants.O_RDWR | constants.O_CREAT | constants.O_EXCL, 0o666);
    await tryFileLock(held.fd, aside).catch(() => true);
    await fill(aside);
    for (const name of await readdir(aside)) await syncOne(join(aside, name));
    await syncFolder(aside);
    // An empty folder of that name gives way; anything in it does not.
    await rename(aside, path);
    await syncFolder(dirname(path));
  } finally {
    await held?.close();
    await rm(aside, { recursive: true, force: true });
  }
}

async function syncOne(path: string): Promise<void> {
  const file = await open(path, 'r+');
  try {
    await synced(file, path);
  } finally {
    await file.close();
  }
}

async function sweep(path: string, sign: string): Promise<void> {
  const begin = `.${basename(path)}.`;
  const names = await readdir(dirname(path)).catch(() => []);
  for (const name of names) {
    if (!name.startsWith(begin) || !/^[0-9a-f]{16}\.aside$/.test(name.slice(begin.length))) continue;
    const folder = join(dirname(path), name);
    const file = await open(join(folder, sign), 'r+').catch(() => undefined);
    try {
      // Without its sign it is empty yet, or no folder of ours.
      if (file === undefined) await rmdir(folder);
      else if (await tryFileLock(file.fd, folder)) await rm(folder, { recursive: true, force: true });
    } catch {
      // Nothing that stays is ever read.
    } finally {
      await file?.close();
    }
  }
}
