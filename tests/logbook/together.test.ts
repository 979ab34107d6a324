import type { ChildProcess } from 'node:child_process';
import { existsSync, fstatSync, mkdirSync, rmSync, statSync, symlinkSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { tryFileLock } from '../../src/disk/file-lock.ts';
import { withLock } from '../../src/logbook/lock.ts';
import { BIKE, childProgram, ended, open, start, tempFolder } from './places.ts';

let program = '';
beforeAll(async () => {
  program = await childProgram();
});

const home = tempFolder();
const other = tempFolder();

test('two processes at once: no entry of 500 is lost, none is there twice, and they are numbered in order', async () => {
  const each = ['a', 'b'].map((name) => ended(start(program, [home, BIKE, 'append', name, '250'])));
  for (const { out } of await Promise.all(each)) expect(out.trim().split('\n').at(-1)).toBe('249');
  const { entries } = await (await open(home)).readHistory();
  expect(entries.map((entry) => entry.entry)).toEqual(Array.from({ length: 500 }, (_, i) => i + 1));
  const reasons = entries.map((entry) => entry.reason);
  for (const name of ['a', 'b']) {
    const own = reasons.filter((reason) => reason!.startsWith(name));
    expect(own).toEqual(Array.from({ length: 250 }, (_, i) => `${name} ${i}`));
  }
});

test('a lock is let go with the work, also with work that fails: the next one has it at its first try', async () => {
  const folder = tempFolder();
  const once = { patience: -1 };
  await expect(withLock(folder, async () => 'in', once)).resolves.toBe('in');
  const fails = withLock(folder, () => Promise.reject(new Error('no')), once);
  await expect(fails).rejects.toThrow('no');
  await expect(withLock(folder, async () => 'in', once)).resolves.toBe('in');
});

test('a lock left by a process that died is none', async () => {
  const log = await open(other);
  await log.append({ kind: 'note', reason: 'first' });
  const holder = start(program, [other, log.folder, 'hold', '', '0']);
  await said(holder);
  const ending = ended(holder);
  holder.kill('SIGKILL');
  await ending;
  expect((await log.append({ kind: 'note', reason: 'second' })).entry.entry).toBe(2);
});

test('a lock is not taken from a process that lives, were it stopped for ever', async () => {
  const log = await open(tempHeld);
  await log.append({ kind: 'note', reason: 'first' });
  const holder = start(program, [tempHeld, log.folder, 'hold', '', '0']);
  await said(holder);
  holder.kill('SIGSTOP');
  // However old the file of the lock seems.
  for (const time of [0, 4e9]) {
    utimesSync(join(log.folder, '.lock'), time, time);
    await expect(withLock(log.folder, async () => 'in', { patience: 20 })).rejects.toMatchObject({
      code: 'busy',
      message: expect.stringContaining('Another earshot is writing'),
    });
  }
  const ending = ended(holder);
  holder.kill('SIGCONT');
  holder.kill('SIGTERM');
  await ending;
  await expect(withLock(log.folder, async () => 'in')).resolves.toBe('in');
});

test('a lock on a file that was removed by hand meanwhile is none: it is taken anew on the one that is there', async () => {
  const folder = join(tempHeld, 'removed');
  mkdirSync(folder, { recursive: true });
  const locked: number[] = [];
  const take = async (fd: number, path: string): Promise<boolean> => {
    // Between opening and locking, once: what is locked then is a file without a name.
    if (locked.length === 0) rmSync(path);
    locked.push(fstatSync(fd).ino);
    return await tryFileLock(fd, path);
  };
  const there = await withLock(folder, async () => statSync(join(folder, '.lock')).ino, { take });
  expect(locked).toEqual([expect.any(Number), there]);
});

test('a second holder of one process waits like any other', async () => {
  const folder = tempInside;
  await withLock(folder, async () => {
    await expect(withLock(folder, async () => 'in', { patience: 20 })).rejects.toMatchObject({
      code: 'busy',
    });
  });
});

test('a lock whose file was removed by hand lets nobody in beside a new one', async () => {
  const folder = tempInside;
  await withLock(folder, async () => {
    rmSync(join(folder, '.lock'));
    await withLock(folder, async () => {
      await expect(withLock(folder, async () => 'in', { patience: 20 })).rejects.toMatchObject({
        code: 'busy',
      });
    });
  });
});

test('what lies in the way of the lock is told', async () => {
  const log = await open(tempInWay);
  await log.append({ kind: 'note', reason: 'first' });
  const lock = join(log.folder, '.lock');
  rmSync(lock);
  symlinkSync(join(tempInWay, 'elsewhere'), lock);
  await expect(log.append({ kind: 'note', reason: 'x' })).rejects.toMatchObject({ code: 'outside' });
  expect(existsSync(join(tempInWay, 'elsewhere'))).toBe(false);
  rmSync(lock);
  mkdirSync(lock);
  await expect(log.append({ kind: 'note', reason: 'x' })).rejects.toMatchObject({ code: 'not-a-folder' });
});

const tempHeld = tempFolder();
const tempInside = tempFolder();
const tempInWay = tempFolder();

/** Until it has said something. */
function said(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => child.stdout!.once('data', () => resolve()));
}
