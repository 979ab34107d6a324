/** Makes a folder and those above it, in a bounded number of steps. */
import { mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/**
 * Not mkdir's own `recursive`: where a folder says that there is no such place although the one above it is there (a
 * folder that was removed under a running process, or one that takes no folders, such as /proc), Node.js 20 tries the
 * two in turn for ever, and cannot be interrupted at it.
 *
 * @param mode of folders that are made; the umask takes from it
 * @throws the error of the file system
 */
export function makeFolders(path: string, mode = 0o777): void {
  const missing: string[] = [];
  let here = resolve(path);
  while (!isThere(here) && dirname(here) !== here) {
    missing.push(here);
    here = dirname(here);
  }
  // A file in the folder's place is no folder either: making it says so.
  if (missing.length === 0 && !isFolder(here)) missing.push(here);
  for (const folder of missing.toReversed()) {
    try {
      mkdirSync(folder, { mode });
    } catch (error) {
      // Another process was quicker.
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST' || !isFolder(folder)) throw error;
    }
  }
}

function isThere(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false }) !== undefined;
  } catch (error) {
    // Below a file: the walk goes on up to it, and making the first folder below it says so.
    if ((error as NodeJS.ErrnoException).code === 'ENOTDIR') return false;
    throw error;
  }
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
}
