import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openLog } from '../../src/logbook/log.ts';
import { BIKE, clock, open, tempFolder } from './places.ts';

const root = tempFolder();

/** A made-up format 2, in which the word `said` stands for `reason`… and back, so that this version can read it. */
async function step(folder: string): Promise<void> {
  const file = join(folder, 'history.yaml');
  writeFileSync(file, readFileSync(file, 'utf8').replaceAll('reason: old', 'reason: new'));
}

async function oldLog(home: string): Promise<string> {
  const log = await open(home);
  await log.append({ kind: 'note', reason: 'old word' });
  await log.saveCase('c', { case: 1 });
  return log.folder;
}

test('a log of an older format is brought up to date when it is opened, and kept as it was beside', async () => {
  const home = join(root, 'a');
  const folder = await oldLog(home);
  const log = await openLog(home, BIKE, { now: clock(), format: 2, migrations: { 1: step } });
  expect((await log.readHistory()).entries[0]!.reason).toBe('new word');
  expect(readFileSync(join(folder, 'log.yaml'), 'utf8')).toContain('log: 2');
  const copy = join(folder, 'before-format-2');
  expect(readdirSync(copy).sort()).toEqual(['cases', 'history.yaml', 'log.yaml']);
  expect(readFileSync(join(copy, 'history.yaml'), 'utf8')).toContain('reason: old word');
  expect(readdirSync(join(copy, 'cases'))).toEqual(['c.yaml']);
});

test('a step that was broken off is done again, from the whole', async () => {
  const home = join(root, 'b');
  const folder = await oldLog(home);
  const broken = async (): Promise<void> => {
    await step(folder);
    throw new Error('killed');
  };
  await expect(openLog(home, BIKE, { now: clock(), format: 2, migrations: { 1: broken } })).rejects.toThrow(
    'killed',
  );
  expect(readFileSync(join(folder, 'log.yaml'), 'utf8')).toContain('log: 1');
  await openLog(home, BIKE, { now: clock(), format: 2, migrations: { 1: step } });
  expect(readFileSync(join(folder, 'before-format-2', 'history.yaml'), 'utf8')).toContain('reason: old word');
});

test('a format that nothing leads on from is told', async () => {
  const home = join(root, 'c');
  await oldLog(home);
  await expect(openLog(home, BIKE, { now: clock(), format: 3, migrations: { 1: step } })).rejects.toThrow(
    'nothing here leads on from it',
  );
});
