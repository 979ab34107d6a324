import { mkdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { BIKE, childProgram, ended, open, start, tempFolder } from './places.ts';

let program = '';
beforeAll(async () => {
  program = await childProgram();
});

const home = tempFolder();
const other = tempFolder();
const future = tempFolder();

test(
  'two processes at once: no entry of 500 is lost, none is there twice, and they are numbered in order',
  { timeout: 60_000 },
  async () => {
    const each = ['a', 'b'].map((name) => ended(start(program, [home, BIKE, 'append', name, '250'])));
    for (const { out } of await Promise.all(each)) expect(out.trim().split('\n').at(-1)).toBe('249');
    const { entries } = await (await open(home)).readHistory();
    expect(entries.map((entry) => entry.entry)).toEqual(Array.from({ length: 500 }, (_, i) => i + 1));
    const reasons = entries.map((entry) => entry.reason);
    for (const name of ['a', 'b']) {
      const own = reasons.filter((reason) => reason!.startsWith(name));
      expect(own).toEqual(Array.from({ length: 250 }, (_, i) => `${name} ${i}`));
    }
  },
);

test('a lock left by a dead process is taken over', async () => {
  const log = await open(other);
  await log.append({ kind: 'note', reason: 'first' });
  const lock = join(log.folder, '.lock');
  mkdirSync(lock);
  utimesSync(lock, new Date(Date.now() - 60_000), new Date(Date.now() - 60_000));
  expect((await log.append({ kind: 'note', reason: 'second' })).entry.entry).toBe(2);
});

test(
  'a dead lock of the future, left before the clock went back, is taken over too',
  { timeout: 60_000 },
  async () => {
    const log = await open(future);
    await log.append({ kind: 'note', reason: 'first' });
    const lock = join(log.folder, '.lock');
    mkdirSync(lock);
    utimesSync(lock, new Date(Date.now() + 86_400_000), new Date(Date.now() + 86_400_000));
    expect((await log.append({ kind: 'note', reason: 'second' })).entry.entry).toBe(2);
  },
);

test(
  'a lock that is held on to says who to wait for, and what to do if there is nobody',
  { timeout: 60_000 },
  async () => {
    const log = await open(tempHeld);
    await log.append({ kind: 'note', reason: 'first' });
    const lock = join(log.folder, '.lock');
    mkdirSync(lock);
    const holding = setInterval(() => utimesSync(lock, new Date(), new Date()), 500);
    try {
      await expect(log.append({ kind: 'note', reason: 'second' })).rejects.toMatchObject({ code: 'busy' });
    } finally {
      clearInterval(holding);
    }
    expect((await log.readHistory()).entries).toHaveLength(1);
  },
);

const tempHeld = tempFolder();

test(
  'what lies in the way of the lock is told: a file at once, a lock with something in it after waiting',
  { timeout: 60_000 },
  async () => {
    const log = await open(tempInWay);
    await log.append({ kind: 'note', reason: 'first' });
    const lock = join(log.folder, '.lock');
    writeFileSync(lock, '');
    utimesSync(lock, new Date(0), new Date(0));
    await expect(log.append({ kind: 'note', reason: 'x' })).rejects.toMatchObject({ code: 'not-a-folder' });
    rmSync(lock);
    mkdirSync(lock);
    writeFileSync(join(lock, 'odd'), '');
    utimesSync(lock, new Date(0), new Date(0));
    await expect(log.append({ kind: 'note', reason: 'x' })).rejects.toMatchObject({
      code: 'busy',
      remedy: expect.stringContaining(`remove the folder ${lock}`),
    });
  },
);

const tempInWay = tempFolder();
