/** Waiting until something is on the disk, where the disk can tell. */
import { open, type FileHandle } from 'node:fs/promises';

/** What a mount answers that cannot do it; any other error means that the data did not get there. */
const CANNOT = new Set(['EINVAL', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS']);

let tell: ((file: string) => void) | undefined;

/** @param listener told once, in a line, of the first file that its disk could not promise to keep through a power cut */
export function whenUnsynced(listener: (line: string) => void): void {
  tell = (file) =>
    listener(
      `${file}: its disk cannot tell when something is really stored; a power cut may lose what is written now.`,
    );
}

/** @throws the error of the file system when the data did not get to the disk */
export async function synced(file: FileHandle, path: string): Promise<void> {
  try {
    await file.sync();
  } catch (error) {
    if (!CANNOT.has((error as NodeJS.ErrnoException).code ?? '')) throw error;
    tell?.(path);
    tell = undefined;
  }
}

/** A new name in a folder is safe only when the folder itself is on the disk; not every platform can ask for it. */
export async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => undefined);
  if (handle === undefined) return;
  await handle.sync().catch(() => undefined);
  await handle.close();
}
