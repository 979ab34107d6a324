import { existsSync, mkdirSync, readFileSync, rmSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readSheet } from '../../src/bike/read.ts';
import { standsOf } from '../../src/bike/stands.ts';
import type { BikeLog } from '../../src/logbook/log.ts';
import { finishSheet, withSheet, type SheetWrite } from '../../src/logbook/sheet-writing.ts';
import { driftOf } from '../../src/logbook/drift.ts';
import { mulberry32 } from '../trials/simulate.ts';
import { exampleSheet } from '../bike/example.ts';
import { sheetText } from '../../src/commands/sheet-text.ts';
import { ended, open, start, tempFolder } from './places.ts';

const CHANGES = [{ setting: 'front.rebound.low', from: 8, to: 10, unit: 'clicks' }];
const WRITE: SheetWrite = { kind: 'change', changes: CHANGES, before: 'old\n', text: 'new\n' };

async function desk(): Promise<{ log: BikeLog; sheet: string; home: string }> {
  const home = tempFolder();
  const sheet = join(home, 'bike.yaml');
  writeFileSync(sheet, WRITE.before);
  const log = await open(home);
  await log.append({ kind: 'note', reason: 'earlier' });
  return { log, sheet, home };
}

const add = (log: BikeLog) => () => log.append({ kind: 'change', changes: CHANGES });
const dies = (): never => {
  throw new Error('killed');
};
const text = (file: string): string => readFileSync(file, 'utf8');

describe('history and sheet', () => {
  it('are changed together', async () => {
    const { log, sheet } = await desk();
    await withSheet(log, sheet, (write) => write(WRITE, add(log)));
    expect(text(sheet)).toBe('new\n');
    expect((await log.readHistory()).entries.map(({ kind }) => kind)).toEqual(['note', 'change']);
    expect(await finishSheet(log)).toBeUndefined();
  });

  it('stay as they were when the process died before the entry', async () => {
    const { log, sheet } = await desk();
    await expect(withSheet(log, sheet, (write) => write(WRITE, dies))).rejects.toThrow('killed');
    expect(await finishSheet(log)).toBeUndefined();
    expect(text(sheet)).toBe('old\n');
    expect((await log.readHistory()).entries).toHaveLength(1);
    expect(existsSync(join(log.folder, 'sheet', 'pending.yaml'))).toBe(false);
  });

  it('are brought together when it died between entry and sheet', async () => {
    const { log, sheet } = await desk();
    const half = async () => (await add(log)(), dies());
    await expect(withSheet(log, sheet, (write) => write(WRITE, half))).rejects.toThrow('killed');
    expect(text(sheet)).toBe('old\n');
    expect(await finishSheet(log)).toContain('entry 2');
    expect(text(sheet)).toBe('new\n');
    expect(await finishSheet(log)).toBeUndefined();
  });

  it('leave a sheet alone that was edited since, and say so', async () => {
    const { log, sheet } = await desk();
    const half = async () => (await add(log)(), dies());
    await expect(withSheet(log, sheet, (write) => write(WRITE, half))).rejects.toThrow('killed');
    writeFileSync(sheet, 'edited by hand\n');
    expect(await finishSheet(log)).toContain('edited or moved');
    expect(text(sheet)).toBe('edited by hand\n');
  });

  it('write through a link to the file it leads to', async () => {
    const { log, sheet, home } = await desk();
    const link = join(home, 'link.yaml');
    symlinkSync(sheet, link);
    await withSheet(log, link, (write) => write(WRITE, add(log)));
    expect(text(sheet)).toBe('new\n');
  });

  it('refuse a folder that leads out of the log', async () => {
    const { log, sheet, home } = await desk();
    const elsewhere = join(home, 'elsewhere');
    mkdirSync(elsewhere);
    symlinkSync(elsewhere, join(log.folder, 'sheet'));
    await expect(withSheet(log, sheet, (write) => write(WRITE, add(log)))).rejects.toMatchObject({
      code: 'outside',
    });
  });
});

const KILLS = 12;

it(`agree after each of ${KILLS} kills at random moments`, { timeout: 60_000 }, async () => {
  const shelf = tempFolder();
  const program = join(shelf, 'sheet-child.mjs');
  await build({
    entryPoints: [join(import.meta.dirname, 'sheet-child.ts')],
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile: program,
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
    logLevel: 'error',
  });
  const home = join(shelf, 'home');
  const file = join(shelf, 'birch.yaml');
  const first = exampleSheet('all-knobs');
  writeFileSync(file, sheetText(first, file));
  const original = text(file);
  const pending = join(home, 'bikes', first.id, 'sheet', 'pending.yaml');
  const random = mulberry32(7);
  let interrupted = 0;
  // On until one kill at least came between the two: otherwise this shows nothing.
  for (let kill = 0; kill < KILLS || (interrupted === 0 && kill < 5 * KILLS); kill++) {
    const child = start(program, [home, file]);
    const ending = ended(child);
    child.stdout!.once('data', async () => {
      // Near the moment at which the two are apart, before and after it.
      await sleep(random() * 60);
      for (let i = 0; i < 2000 && !existsSync(pending); i++) await sleep(1);
      await sleep(random() * 12);
      child.kill('SIGKILL');
    });
    const { signal, out } = await ending;
    expect(out.replaceAll(/^(?:ready|A write was interrupted.*brought up to.*)$/gm, '').trim()).toBe('');
    expect(signal).toBe('SIGKILL');
    for (const lock of ['.lock', 'sheet/.lock']) {
      const path = join(home, 'bikes', first.id, lock);
      const old = new Date(Date.now() - 60_000);
      if (existsSync(path)) utimesSync(path, old, old);
    }
    const log = await open(home, first.id);
    if ((await finishSheet(log)) !== undefined) interrupted++;
    const { sheet } = readSheet(parse(text(file)));
    const logged = await log.standings();
    expect(driftOf(standsOf(sheet!), logged)).toEqual([]);
    if (logged['front.rebound.low']?.value === 8) expect(text(file)).toBe(original);
  }
  expect(interrupted).toBeGreaterThan(0);
  rmSync(home, { recursive: true, force: true });
});
