/** Writes a case so that a kill at any instant leaves the old file or the new one, never a half. */
import { realpathSync } from 'node:fs';
import { createFile, replaceFile, type WriteOptions } from './atomic-file.ts';

/** Puts a whole file where none is; of two that try at once one gets the name, and the other EEXIST. */
export async function create(path: string, text: string, options: WriteOptions): Promise<string> {
  await createFile(path, text, options);
  return path;
}

/** Replaces a file in one step; a link is followed, not replaced. */
export async function replace(path: string, text: string, options: WriteOptions): Promise<string> {
  await replaceFile(realpath(path), text, options);
  return path;
}

export function realpath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}

/** What the file system said. */
export function codeOf(error: unknown): string {
  const { code, cause } = error as NodeJS.ErrnoException;
  return (cause as NodeJS.ErrnoException | undefined)?.code ?? code ?? '';
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
