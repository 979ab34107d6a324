/**
 * Files that are safe to lose: put in their place whole or not at all, but without the locks and the waiting of the log,
 * which cost more than most of what is kept saves. Who is stopped in the middle loses the file, and no other.
 */
import { linkSync, readdirSync, renameSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { cryptography } from './sha256.ts';

/** Named by who writes it, so that what a killed writer left is known; a number may come again, so it ages too. */
const ASIDE = /^\..+\.(\d+)-[0-9a-f]{12}\.aside$/;
/** ms: nobody writes such a file for so long. */
const LEFT = 3_600_000;
const MODE = 0o600;

/** Replaces a file in one step, or puts it where none is. @throws the error of the file system, with nothing left */
export function putSpare(path: string, bytes: Uint8Array): void {
  throughAside(path, bytes, (aside) => renameSync(aside, path));
}

/** Puts it where none is; of two that try at once one gets the name, and nothing is said. @throws as above */
export function createSpare(path: string, bytes: Uint8Array): void {
  throughAside(path, bytes, (aside) => {
    try {
      linkSync(aside, path);
      unlinkSync(aside);
    } catch (error) {
      // A disk without hard links: the last of two that try at once has it then.
      if ((error as NodeJS.ErrnoException).code === 'EEXIST') unlinkSync(aside);
      else renameSync(aside, path);
    }
  });
}

function throughAside(path: string, bytes: Uint8Array, put: (aside: string) => void): void {
  const part = cryptography().randomBytes(6).toString('hex');
  const aside = join(dirname(path), `.${basename(path)}.${process.pid}-${part}.aside`);
  try {
    writeFileSync(aside, bytes, { flag: 'wx', mode: MODE });
    put(aside);
  } catch (error) {
    dropSpare(aside);
    throw error;
  }
}

/** Takes a file away, if it is there and can be. Not `rmSync`: what that loads costs 5 ms, more than all else here. */
export function dropSpare(path: string): void {
  try {
    unlinkSync(path);
  } catch {
    return;
  }
}

/** Removes what killed writers left in a folder of such files. */
export function sweepSpare(folder: string): void {
  for (const name of namesIn(folder)) {
    if (!name.startsWith('.') || !name.endsWith('.aside')) continue;
    const path = join(folder, name);
    const writer = ASIDE.exec(name)?.[1];
    const alive = writer !== undefined && isAlive(Number(writer));
    try {
      if (!alive || Date.now() - statSync(path).mtimeMs > LEFT) unlinkSync(path);
    } catch {
      // Its writer has put it in its place.
    }
  }
}

function isAlive(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
