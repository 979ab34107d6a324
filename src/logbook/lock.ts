/** One writer at a time in the folder of a bike; the lock of a writer who died is taken over. */
import { rmdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import lockfile from 'proper-lockfile';
import { asLogError, LogError } from './errors.ts';

/** A holder touches its lock twice in this time; untouched for longer, it is dead. ms */
const STALE = 2000;
/** Waits of 5 ms growing to 100 ms: about 4 s together, twice `STALE`. */
const RETRIES = { retries: 45, factor: 1.3, minTimeout: 5, maxTimeout: 100, randomize: true };
/** After a dead lock was cleared away: only others who waited as well can be in the way. */
const FEW_RETRIES = { ...RETRIES, retries: 10 };
const NO_RETRIES = { ...RETRIES, retries: 0 };
/** Waiting does not help against these; the library would try again all the same. */
const LASTING = new Set(['EACCES', 'EPERM', 'EROFS', 'ENOSPC', 'EDQUOT', 'ENOTDIR']);
/** ENOTEMPTY: somebody put something into the lock of a dead writer. */
const HELD = new Set(['ELOCKED', 'ENOTEMPTY']);

/** Runs the work while holding the lock. @throws LogError `busy` when another process holds on to it */
export async function withLock<T>(folder: string, work: () => Promise<T>): Promise<T> {
  const path = join(folder, '.lock');
  const release = await acquire(folder, path);
  try {
    return await work();
  } finally {
    // Gone already when the machine slept and another process took over. All appends are single writes at the end
    // of the file, so even then nothing is lost.
    await release().catch(() => undefined);
  }
}

async function acquire(folder: string, path: string): Promise<() => Promise<void>> {
  const take = (retries: typeof RETRIES): Promise<() => Promise<void>> =>
    lockfile.lock(folder, {
      lockfilePath: path,
      stale: STALE,
      retries,
      onCompromised: () => undefined,
    });
  const before = await touched(path);
  try {
    return await take(NO_RETRIES);
  } catch (error) {
    if (LASTING.has(codeOf(error))) throw asLogError(error, path);
  }
  try {
    return await take(RETRIES);
  } catch (error) {
    if (!HELD.has(codeOf(error))) throw asLogError(error, path);
    // The library compares the lock's time with the clock. After a clock that went back a dead lock seems to be of
    // the future and never grows old; but a lock that nobody touched all this while is dead by any clock.
    if (before !== undefined && (await touched(path)) === before) await rmdir(path).catch(() => undefined);
    return await take(FEW_RETRIES).catch((second: unknown) => {
      if (!HELD.has(codeOf(second))) throw asLogError(second, path);
      throw new LogError(
        'busy',
        `Another earshot is writing to ${folder}.`,
        `Wait until it is done and do it again. If none is running, remove the folder ${path}.`,
        { file: path, cause: second },
      );
    });
  }
}

function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? '';
}

async function touched(path: string): Promise<number | undefined> {
  return (await stat(path).catch(() => undefined))?.mtimeMs;
}
