import { readFileSync } from 'node:fs';
import { open as openFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, expect, it, vi } from 'vitest';
import { replaceFile } from '../../src/disk/atomic-file.ts';
import { whenUnsynced } from '../../src/disk/synced.ts';
import { open, tempFolder } from '../logbook/places.ts';

afterEach(() => void vi.restoreAllMocks());
const folder = tempFolder();

/** What every open file answers when it is asked to wait for the disk. */
async function syncFails(code: string): Promise<void> {
  const probe = await openFile(process.execPath, 'r');
  vi.spyOn(Object.getPrototypeOf(probe) as { sync: () => Promise<void> }, 'sync').mockImplementation(() =>
    Promise.reject(Object.assign(new Error(code), { code })),
  );
  await probe.close();
}

it.each(['EINVAL', 'ENOTSUP', 'ENOSYS'])(
  'a disk that answers %s is written to all the same, and told of once',
  async (code) => {
    await syncFails(code);
    const told: string[] = [];
    whenUnsynced((line) => told.push(line));
    const log = await open(join(folder, code));
    await log.append({ kind: 'note', reason: 'first' });
    await log.append({ kind: 'note', reason: 'second' });
    expect((await log.readHistory()).entries).toHaveLength(2);
    expect(told).toEqual([expect.stringContaining('a power cut may lose')]);
  },
);

it('a disk that failed to store it is an error, with the old file unharmed', async () => {
  const path = join(folder, 'a');
  await replaceFile(path, 'old');
  await syncFails('EIO');
  await expect(replaceFile(path, 'new')).rejects.toMatchObject({ name: 'LogError' });
  expect(readFileSync(path, 'utf8')).toBe('old');
});
