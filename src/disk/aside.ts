/** Files written aside before they are put in their place, and what killed writers left of them. */
import { randomBytes } from 'node:crypto';
import { constants } from 'node:fs';
import { open, readdir, rm, type FileHandle } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { tryFileLock } from './file-lock.ts';

/** Hidden, with a part that no other process hits upon: process ids come again, in containers soon. */
const ASIDE = /^\..+\.[0-9a-f]{16}\.aside$/;

export interface Aside {
  readonly file: FileHandle;
  /** full path */
  readonly name: string;
}

/** A new file beside that path, locked for as long as it is open, so that nobody takes it for a leftover. */
export async function openAside(path: string, mode: number): Promise<Aside> {
  await sweepBeside(path);
  for (;;) {
    const name = join(dirname(path), `.${basename(path)}.${randomBytes(8).toString('hex')}.aside`);
    const flags = constants.O_WRONLY | constants.O_CREAT | constants.O_EXCL;
    const file = await open(name, flags, mode);
    // Where there are no locks nothing is swept either.
    const mine = await tryFileLock(file.fd, name).catch(() => true);
    // Swept away between the two steps: another name.
    if (mine && (await file.stat()).nlink > 0) return { file, name };
    await file.close();
  }
}

/** Removes what killed writers of that file left beside it. */
export async function sweepBeside(path: string): Promise<void> {
  const begin = `.${basename(path)}.`;
  await sweep(dirname(path), (name) => name.startsWith(begin) && ASIDE.test(name));
}

/** Removes what killed writers left in a folder of the log. A living one holds the lock of its file. */
export async function sweepAside(folder: string): Promise<void> {
  await sweep(folder, (name) => name.startsWith('.') && name.endsWith('.aside'));
}

async function sweep(folder: string, isOurs: (name: string) => boolean): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names.filter(isOurs)) {
    const path = join(folder, name);
    const file = await open(path, constants.O_WRONLY | (constants.O_NOFOLLOW ?? 0)).catch(() => undefined);
    if (file === undefined) continue;
    try {
      if (await tryFileLock(file.fd, path)) await rm(path, { force: true });
    } catch {
      // Nothing that stays is ever read.
    } finally {
      await file.close();
    }
  }
}
