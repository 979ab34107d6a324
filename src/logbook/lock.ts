/** One writer at a time in a folder of the log. */
import { constants } from 'node:fs';
import { open, stat, type FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { asLogError, LogError } from '../disk/errors.ts';
import { tryFileLock } from '../disk/file-lock.ts';

/** Eight writers of five hundred entries each stay far below this. ms */
const PATIENCE = 15_000;
const SHORTEST_WAIT = 2;
const LONGEST_WAIT = 60;

export interface LockOptions {
  /** how long to wait for another writer, ms */
  readonly patience?: number;
  /** what locks the open file, when not the kernel's lock */
  readonly take?: typeof tryFileLock;
}

/** Runs the work while holding the lock. @throws LogError `busy` when another process holds on to it */
export async function withLock<T>(
  folder: string,
  work: () => Promise<T>,
  { patience = PATIENCE, take = tryFileLock }: LockOptions = {},
): Promise<T> {
  const lock = await acquire(folder, patience, take);
  try {
    return await work();
  } finally {
    // The lock goes with the open file. The file stays: whoever removed it would let two in at once.
    await lock.close();
  }
}

async function acquire(folder: string, patience: number, take: typeof tryFileLock): Promise<FileHandle> {
  const path = join(folder, '.lock');
  const end = performance.now() + patience;
  for (let wait = SHORTEST_WAIT; ; wait = Math.min(LONGEST_WAIT, wait * 1.5)) {
    const file = await opened(path);
    try {
      if ((await take(file.fd, path)) && (await isStill(file, path))) return file;
    } catch (error) {
      await file.close();
      throw error;
    }
    await file.close();
    if (performance.now() > end)
      throw new LogError(
        'busy',
        `Another earshot is writing to ${folder}.`,
        'Nothing was written. Wait until it is done and try again. If it was paused, let it finish or end it first.',
        { file: path },
      );
    // Not all at the same moment again.
    await sleep(wait * (0.5 + Math.random()));
  }
}

async function opened(path: string): Promise<FileHandle> {
  const flags = constants.O_RDWR | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0);
  try {
    return await open(path, flags, 0o600);
  } catch (error) {
    throw asLogError(error, path);
  }
}

/** Whether the name still leads to this file: somebody may have removed it by hand. */
async function isStill(file: FileHandle, path: string): Promise<boolean> {
  const [mine, there] = await Promise.all([file.stat(), stat(path).catch(() => undefined)]);
  return mine.ino === there?.ino && mine.dev === there.dev;
}
