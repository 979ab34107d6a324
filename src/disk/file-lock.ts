/**
 * Locks that the kernel keeps: they are gone with the process that held them, however it ended, and with nothing else.
 *
 * Not a file whose presence is the lock: whether its maker still lives can only be guessed by the time that went by, and
 * a process that was stopped, or a machine that slept, is taken for dead (seen after two seconds).
 */
import { LogError } from './errors.ts';

type TryLock = (fd: number) => boolean;
let loading: Promise<TryLock> | undefined;

/** @returns whether this open file now holds its lock; another descriptor holds it otherwise, of this process or not */
export async function tryFileLock(fd: number, file: string): Promise<boolean> {
  loading ??= import('fs-native-extensions').then((library) => library.tryLock);
  let tryLock: TryLock;
  try {
    tryLock = await loading;
  } catch (error) {
    throw new LogError(
      'io',
      `${file} cannot be locked: there are no file locks for ${process.platform} on ${process.arch} here.`,
      'Nothing was written. Write the log on another machine.',
      { file, cause: error },
    );
  }
  try {
    return tryLock(fd);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? String(error);
    throw new LogError(
      'io',
      `${file} cannot be locked: its disk keeps no locks (${code}).`,
      'Nothing was written. Set EARSHOT_HOME to a folder on a disk of this machine.',
      { file, cause: error },
    );
  }
}
