import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { BIKE, childProgram, ended, open, start, tempFolder } from './places.ts';

let program = '';
beforeAll(async () => {
  program = await childProgram();
});

const root = tempFolder();

test('killed at every writing call, a log opens with what was told, or one write more', async () => {
  let torn = 0;
  let n = 0;
  const killOnce = async (): Promise<boolean> => {
    // Its own number, whatever the other lanes are at.
    const at = (n += 1);
    const home = join(root, `home-${at}`);
    const before = await open(home);
    await before.append({ kind: 'note', reason: '0 long 0' });
    await before.saveTrial('t', () => ({ first: 0, last: 0 }));
    const { out, signal } = await ended(start(program, [home, BIKE, 'die', '', String(at)]));
    const log = await open(home);
    const { entries, unfinished } = await log.readHistory();
    if (unfinished !== undefined) torn++;
    entries.forEach((entry, i) => expect(entry.reason).toMatch(new RegExp(`^${i} (long )+${i}$`)));
    const { papers, problems } = await log.loadTrials();
    expect(problems).toEqual([]);
    const data = papers[0]?.data;
    expect(data?.['first']).toBe(data?.['last']);
    const told = (what: string): number => out.split('\n').filter((line) => line.startsWith(what)).length;
    expect([told('entry') + 1, told('entry') + 2]).toContain(entries.length);
    const saved = ((data?.['first'] as number | undefined) ?? -1) + 1;
    expect([told('paper') + 1, told('paper') + 2]).toContain(saved);
    // The next write goes on in order, and leaves nothing of the dead one's.
    const { entry } = await log.append({ kind: 'note', reason: 'next' });
    expect(entry.entry).toBe(entries.length + 1);
    const names = readdirSync(home, { recursive: true }).map(String);
    expect(names.filter((name) => name.endsWith('.aside'))).toEqual([]);
    if (signal !== null) expect(signal).toBe('SIGKILL');
    return signal === null;
  };
  let over = false;
  const lane = async (): Promise<void> => {
    while (!over) over = (await killOnce()) || over;
  };
  await Promise.all([lane(), lane(), lane()]);
  expect(torn).toBeGreaterThan(0);
  expect(n).toBeGreaterThan(15);
});
