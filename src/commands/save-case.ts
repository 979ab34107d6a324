/** Writes a case so that a kill at any instant leaves the old file or the new one, never a half. */
import { randomBytes } from 'node:crypto';
import {
  closeSync,
  fsyncSync,
  linkSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Puts a whole file where none is; of two that try at once one gets the name, and the other EEXIST. */
export function create(path: string, text: string, durable: boolean): string {
  const aside = writeAside(path, text, durable);
  try {
    linkSync(aside, path);
  } catch (error) {
    if (codeOf(error) === 'EEXIST') throw error;
    // A disk without hard links: take the name first, then fill it in one step.
    closeSync(openSync(path, 'wx', 0o644));
    renameSync(aside, path);
  } finally {
    rmSync(aside, { force: true });
  }
  return path;
}

/** Replaces a file in one step; a link is followed, not replaced. */
export function replace(path: string, text: string, durable: boolean): string {
  const target = realpath(path);
  const aside = writeAside(target, text, durable);
  try {
    renameSync(aside, target);
  } catch (error) {
    rmSync(aside, { force: true });
    throw error;
  }
  return path;
}

export function writeAside(path: string, text: string, durable: boolean): string {
  const aside = join(dirname(path), `.${basename(path)}.${randomBytes(4).toString('hex')}.part`);
  try {
    const file = openSync(aside, 'wx', 0o644);
    try {
      // Writes on until all of it is stored, or throws.
      writeFileSync(file, text);
      if (durable) fsyncSync(file);
    } finally {
      closeSync(file);
    }
  } catch (error) {
    rmSync(aside, { force: true });
    throw error;
  }
  return aside;
}

export function realpath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}

export function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? '';
}

/** Why a file could not be written, in words. */
export function reasonOf(error: unknown): string {
  switch (codeOf(error)) {
    case 'EACCES':
    case 'EPERM':
      return 'no permission';
    case 'EROFS':
      return 'the disk is read-only';
    case 'ENOSPC':
    case 'EDQUOT':
      return 'the disk is full';
    case 'ENOENT':
      return 'there is no such folder';
    case 'ENOTDIR':
      return 'a file stands where a folder should be';
    case 'EEXIST':
      return 'something else stands in that place';
    default:
      return codeOf(error) || (error as Error).message;
  }
}
