import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { readSheet } from '../../src/bike/form/read.ts';
import { standsOf } from '../../src/bike/setting-values.ts';
import type { BikeLog } from '../../src/logbook/log.ts';
import {
  finishSheet,
  withSheet,
  sheetBehind,
  type SheetFile,
  type SheetWrite,
} from '../../src/logbook/sheet-writing.ts';
import { stockTaking } from '../../src/logbook/entry.ts';
import { driftOf } from '../../src/logbook/replay.ts';
import { exampleSheet } from '../bike/example.ts';
import { sheetFile } from '../../src/workspace/bikes/sheet-file.ts';
import { sheetText } from '../../src/workspace/bikes/sheet-text.ts';
import { childProgram, ended, open, start, tempFolder } from './places.ts';

const CHANGES = [{ setting: 'front.rebound.low', from: 8, to: 10, unit: 'clicks' }];
const WRITE: SheetWrite = {
  kind: 'change',
  changes: CHANGES,
  intent: 'front.rebound.low+2',
  before: 'old\n',
  text: 'new\n',
};

/** A sheet of which the log knows the first line, whatever else somebody wrote on it. */
const fileAt = (path: string): SheetFile => ({
  path,
  bring: (now) => (/^(old|new)\n/.test(now) ? now.replace(/^old/, 'new') : undefined),
});

async function workspace(): Promise<{ log: BikeLog; sheet: string; home: string }> {
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
    const { log, sheet } = await workspace();
    await withSheet(log, fileAt(sheet), (write) => write(WRITE, add(log)));
    expect(text(sheet)).toBe('new\n');
    expect((await log.readHistory()).entries.map(({ kind }) => kind)).toEqual(['note', 'change']);
    expect(await finishSheet(log, fileAt(sheet))).toBeUndefined();
  });

  it('stay as they were when the process died before the entry', async () => {
    const { log, sheet } = await workspace();
    await expect(withSheet(log, fileAt(sheet), (write) => write(WRITE, dies))).rejects.toThrow('killed');
    expect(await finishSheet(log, fileAt(sheet))).toBeUndefined();
    expect(text(sheet)).toBe('old\n');
    expect((await log.readHistory()).entries).toHaveLength(1);
    expect(existsSync(join(log.folder, 'sheet', 'pending.yaml'))).toBe(false);
  });

  it('are brought together when it died between entry and sheet', async () => {
    const { log, sheet } = await workspace();
    const half = async () => (await add(log)(), dies());
    await expect(withSheet(log, fileAt(sheet), (write) => write(WRITE, half))).rejects.toThrow('killed');
    expect(text(sheet)).toBe('old\n');
    expect(await sheetBehind(log, sheet)).toContain('entry 2 of the log is not on');
    expect(text(sheet)).toBe('old\n');
    expect(await finishSheet(log, fileAt(sheet))).toMatchObject({
      said: expect.stringContaining('entry 2'),
      intent: 'front.rebound.low+2',
    });
    expect(await sheetBehind(log, sheet)).toBeUndefined();
    expect(text(sheet)).toBe('new\n');
    expect(await finishSheet(log, fileAt(sheet))).toBeUndefined();
  });

  it('take no earlier entry that says the same for the one that was never written', async () => {
    const { log, sheet } = await workspace();
    await withSheet(log, fileAt(sheet), (write) => write(WRITE, add(log)));
    await log.append({ kind: 'change', changes: [{ ...CHANGES[0]!, from: 10, to: 8 }] });
    writeFileSync(sheet, WRITE.before);
    await expect(withSheet(log, fileAt(sheet), (write) => write(WRITE, dies))).rejects.toThrow('killed');
    expect(await sheetBehind(log, sheet)).toBeUndefined();
    expect(await finishSheet(log, fileAt(sheet))).toBeUndefined();
    expect(text(sheet)).toBe('old\n');
  });

  it.each([
    ['that cannot be brought up to the log', 'edited by hand\n'],
    ['that could be', 'old\nedited by hand\n'],
  ])('leave a sheet alone that was edited since, and say so: one %s', async (_, edited) => {
    const { log, sheet } = await workspace();
    const half = async () => (await add(log)(), dies());
    await expect(withSheet(log, fileAt(sheet), (write) => write(WRITE, half))).rejects.toThrow('killed');
    writeFileSync(sheet, edited);
    expect(await sheetBehind(log, sheet)).toBeUndefined();
    expect((await finishSheet(log, fileAt(sheet)))?.said).toContain('has changed since');
    expect(text(sheet)).toBe(edited);
  });

  it('are told as together when only the note is left', async () => {
    const { log, sheet } = await workspace();
    const half = async () => (await add(log)(), dies());
    await expect(withSheet(log, fileAt(sheet), (write) => write(WRITE, half))).rejects.toThrow('killed');
    writeFileSync(sheet, WRITE.text);
    const finished = await finishSheet(log, fileAt(sheet));
    expect(finished).toMatchObject({ entry: { entry: 2 }, intent: 'front.rebound.low+2' });
    expect(finished).not.toHaveProperty('said');
  });

  it('write no file but the sheet that was opened, whatever the note says', async () => {
    const { log, sheet, home } = await workspace();
    await log.append({ kind: 'change', changes: CHANGES });
    const victim = join(home, 'victim.yaml');
    writeFileSync(victim, 'old\n');
    mkdirSync(join(log.folder, 'sheet'), { recursive: true });
    const hash = (one: string): string => createHash('sha256').update(one).digest('hex');
    const note = { after: 1, kind: 'change', changes: CHANGES, intent: 'x', before: hash('old\n') };
    for (const crafted of [
      { ...note, sheet: victim, before: 'old\n', text: 'crafted\n' },
      { ...note, sheet: victim },
      note,
    ]) {
      writeFileSync(join(log.folder, 'sheet', 'pending.yaml'), stringify(crafted));
      await sheetBehind(log, sheet);
      await finishSheet(log, fileAt(sheet));
      expect(text(victim)).toBe('old\n');
      expect(existsSync(join(log.folder, 'sheet', 'pending.yaml'))).toBe(false);
    }
    // Of the last, which is a true one, only what the log itself says.
    expect(text(sheet)).toBe(WRITE.text);
  });

  it('say that it is logged when the sheet cannot be written any more, and not to do it again', async () => {
    const { log, sheet } = await workspace();
    const blocked = async () => {
      const done = await add(log)();
      rmSync(sheet);
      mkdirSync(sheet);
      return done;
    };
    await expect(withSheet(log, fileAt(sheet), (write) => write(WRITE, blocked))).rejects.toMatchObject({
      code: 'sheet-behind',
      message: expect.stringContaining('Entry 2 is in the log'),
      remedy: expect.stringContaining('Do not make this change again'),
    });
    rmSync(sheet, { recursive: true });
    writeFileSync(sheet, WRITE.before);
    expect((await finishSheet(log, fileAt(sheet)))?.intent).toBe(WRITE.intent);
    expect(text(sheet)).toBe(WRITE.text);
  });

  it('write through a link to the file it leads to', async () => {
    const { log, sheet, home } = await workspace();
    const link = join(home, 'link.yaml');
    symlinkSync(sheet, link);
    await withSheet(log, fileAt(link), (write) => write(WRITE, add(log)));
    expect(text(sheet)).toBe('new\n');
  });

  it('refuse a folder that leads out of the log', async () => {
    const { log, sheet, home } = await workspace();
    const elsewhere = join(home, 'elsewhere');
    mkdirSync(elsewhere);
    symlinkSync(elsewhere, join(log.folder, 'sheet'));
    await expect(withSheet(log, fileAt(sheet), (write) => write(WRITE, add(log)))).rejects.toMatchObject({
      code: 'outside',
    });
  });
});

// Every single one, of every command: tests/bench/kill-points.mjs.
it.each([
  ['change', 7],
  ['undo', 7],
] as const)(
  'agree after a kill at writing calls of a %s, each %i-th from the first, and leave nothing over',
  async (job, stride) => {
    const shelf = tempFolder();
    const program = await childProgram('sheet-child');
    const first = exampleSheet('all-knobs');
    let interrupted = 0;
    const killAt = async (n: number): Promise<boolean> => {
      const place = join(shelf, String(n));
      mkdirSync(place);
      const home = join(place, 'home');
      const file = join(place, 'birch.yaml');
      writeFileSync(file, sheetText(first, file));
      const original = text(file);
      const before = await open(home, first.id);
      await before.append(stockTaking(first));
      if (job === 'undo') {
        const moved = { setting: 'front.rebound.low', from: 10, to: 8, unit: 'clicks' };
        await before.append({ kind: 'change', changes: [moved] });
      }
      const { signal, out } = await ended(start(program, [home, file, job, String(n)]));
      // The next start.
      const log = await open(home, first.id);
      if ((await finishSheet(log, sheetFile(file)))?.said !== undefined) interrupted++;
      await log.append({ kind: 'note', reason: 'next' });
      const { entries } = await log.readHistory();
      const kinds = entries.map(({ kind }) => kind);
      if (out.includes('done')) expect(kinds).toContain(job);
      const { sheet } = readSheet(parse(text(file)));
      expect(driftOf(standsOf(sheet!), await log.standings())).toEqual([]);
      expect(text(file) === original).toBe(!kinds.slice(job === 'undo' ? 2 : 1).includes(job));
      expect(leftovers(place)).toEqual([]);
      if (signal === null) expect(out).toBe('done\n');
      else expect(signal).toBe('SIGKILL');
      return signal === null;
    };
    let n = 1 - stride;
    let over = false;
    const lane = async (): Promise<void> => {
      while (!over) over = (await killAt((n += stride))) || over;
    };
    await Promise.all([lane(), lane(), lane()]);
    expect(n).toBeGreaterThan(25);
    expect(interrupted).toBeGreaterThan(2);
  },
);

/** What nothing but an interrupted write leaves. */
function leftovers(folder: string): string[] {
  return readdirSync(folder, { recursive: true })
    .map(String)
    .filter((name) => /\.aside$|\.part$|pending/.test(name));
}

it('tells no difference between values of different units: a pressure written in bar stands where the log has psi', () => {
  const stands = [{ setting: 'front.spring', value: 5, unit: 'bar' }];
  const logged = { 'front.spring': { value: 72.5, unit: 'psi', entry: 3 } };
  expect(driftOf(stands, logged as Parameters<typeof driftOf>[1])).toEqual([]);
  expect(driftOf([{ ...stands[0]!, unit: 'psi' }], logged as Parameters<typeof driftOf>[1])).toHaveLength(1);
});
