/** Several at once, and again after a fault: nothing that was acknowledged is lost, nothing is done twice. */
import { createHash } from 'node:crypto';
import { chmodSync, mkdirSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { trialRecord } from '../../src/cli/commands/trial/record.ts';
import { PLAIN } from '../../src/report/style.ts';
import { replaceFile } from '../../src/disk/atomic-file.ts';
import { folderAside } from '../../src/logbook/folder-aside.ts';
import { withLock } from '../../src/logbook/lock.ts';
import { openLog } from '../../src/logbook/log.ts';
import { tempFolder } from '../logbook/places.ts';
import { Refusal, type Io } from '../../src/host/io.ts';
import { workshop, type Workshop } from '../story/place.ts';
import { scripted } from '../support/scripted.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;
const logFolder = (shop: Workshop): string => join(shop.env['EARSHOT_HOME']!, 'bikes', 'birch');
const ridden = async (shop: Workshop): Promise<readonly { readonly note?: string }[]> => {
  const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
  return (await log.loadTrials()).papers[0]!.data['ridden'] as { note?: string }[];
};
const record = (shop: Workshop, note: string) =>
  shop.run('trial', 'record', ...BIKE, '--rating', 'overall=4', '--note', note);

/** Run 1, told by options. @param note asked for once the trial was read, and nothing written yet */
async function recordFirst(shop: Workshop, note: () => string): Promise<{ code: number; err: string }> {
  let err = '';
  const said = new Map<PropertyKey, string>();
  const options = {
    bike: 'bike.yaml',
    run: '1',
    rating: ['overall=4'],
    hidden: false,
    known: false,
    dropLast: false,
    rules: [],
    style: async () => PLAIN,
    get note(): string {
      if (!said.has('note')) said.set('note', note());
      return said.get('note')!;
    },
    prompter: async () => scripted(() => ({ text: '' })),
  };
  const io = ioOf(shop, (text) => (err += text));
  try {
    return { code: await trialRecord(options, io), err };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { code: error.exit, err: `${err}${error.message}` };
  }
}

const ioOf = (shop: Workshop, err: (text: string) => void = () => undefined): Io => ({
  out: () => undefined,
  err,
  stdin: (async function* () {})(),
  cwd: shop.folder,
  env: shop.env,
  stdinIsTty: true,
  stdoutIsTty: true,
  stderrIsTty: true,
  width: 80,
  now: () => new Date('2026-05-04T10:20:30Z'),
});

describe('runs of a trial', () => {
  it('are all kept when eight are recorded at once', async () => {
    const shop = workshop();
    await shop.out('trial', 'plan', '--long', ...BIKE, '--change', 'front.rebound.low+2');
    const notes = Array.from({ length: 8 }, (_, i) => `run ${i}`);
    const ran = await Promise.all(notes.map((note) => record(shop, note)));
    expect(ran.map(({ code }) => code)).toEqual(notes.map(() => 0));
    expect((await ridden(shop)).map(({ note }) => note).toSorted()).toEqual(notes);
  });
  it('are all kept when others are recorded while one is asked for at a prompt', async () => {
    const shop = workshop();
    await shop.out('trial', 'plan', '--long', ...BIKE, '--change', 'front.rebound.low+2');
    const prompter = scripted((at) =>
      'choices' in at ? '1' : { text: at.message.includes('note') ? 'asked' : '' },
    );
    const code = await trialRecord(
      {
        bike: 'bike.yaml',
        rating: [],
        hidden: false,
        known: false,
        dropLast: false,
        rules: [],
        style: async () => PLAIN,
        prompter: async () => {
          for (const note of ['a', 'b', 'c']) await record(shop, note);
          return prompter;
        },
      },
      ioOf(shop),
    );
    expect(code).toBe(0);
    expect((await ridden(shop)).map(({ note }) => note)).toEqual(['a', 'b', 'c', 'asked']);
  });
  it('of one number, written down twice at once, do not take the place of each other', async () => {
    const shop = workshop();
    await shop.out('trial', 'plan', '--long', ...BIKE, '--change', 'front.rebound.low+2');
    // Both have read the trial before either may write: the lock is held until then.
    let reading = 2;
    let bothHaveRead = (): void => undefined;
    const read = new Promise<void>((resolve) => (bothHaveRead = resolve));
    const noted = (note: string): string => {
      reading -= 1;
      if (reading === 0) bothHaveRead();
      return note;
    };
    const ran: Promise<{ code: number; err: string }>[] = [];
    await withLock(logFolder(shop), async () => {
      ran.push(...['one', 'two'].map((note) => recordFirst(shop, () => noted(note))));
      await read;
    });
    const both = await Promise.all(ran);
    expect(both.map(({ code }) => code).toSorted()).toEqual([0, 1]);
    expect(both.map(({ err }) => err).join('')).toContain('Somebody else just recorded');
    expect(await ridden(shop)).toHaveLength(1);
  });
  it('cannot be planned twice over at once: one plan is kept, the other told', async () => {
    const shop = workshop();
    const plans = await Promise.all(
      [2, 1].map((by) => shop.run('trial', 'plan', '--long', ...BIKE, '--change', `front.rebound.low+${by}`)),
    );
    expect(plans.map(({ code }) => code).toSorted()).toEqual([0, 2]);
    expect(readdirSync(join(logFolder(shop), 'trials'))).toHaveLength(1);
  });
});

/** A change whose entry is in the log and whose sheet is as it was: a full disk, or a kill, came between. */
async function half(shop: Workshop): Promise<string> {
  const before = shop.sheet();
  await shop.out('log', 'change', 'front.rebound.low+2', ...BIKE);
  const changes = [{ setting: 'front.rebound.low', from: 8, to: 10, unit: 'clicks' }];
  writeFileSync(join(shop.folder, 'bike.yaml'), before);
  writeFileSync(
    join(logFolder(shop), 'sheet', 'pending.yaml'),
    stringify({
      after: 1,
      kind: 'change',
      changes,
      intent: 'front.rebound.low+2',
      before: createHash('sha256').update(before).digest('hex'),
    }),
  );
  return before;
}

describe('a change that is in the log and not on the sheet', () => {
  it('is not made twice when it is asked for again, but once more when it is asked for a third time', async () => {
    const shop = workshop();
    await half(shop);
    const again = await shop.run('log', 'change', 'front.rebound.low+2', ...BIKE);
    expect(again).toMatchObject({ code: 0, err: expect.stringContaining('was not done twice') });
    expect(again.out).toContain('8 → 10 clicks');
    expect(shop.sheet()).toContain('now: 10');
    expect((await shop.json('log', ...BIKE)).entries).toHaveLength(2);
    await shop.out('log', 'change', 'front.rebound.low+2', ...BIKE);
    expect(shop.sheet()).toContain('now: 12');
  });
  it('is brought onto the sheet before another change', async () => {
    const shop = workshop();
    await half(shop);
    const { err } = await shop.run('log', 'change', 'front.compression.low+1', ...BIKE);
    expect(err).toContain('was brought up to entry 2');
    expect(shop.sheet()).toContain('now: 10');
    expect((await shop.json('log', ...BIKE)).entries).toHaveLength(3);
  });
  it('is only told by who reads', async () => {
    const shop = workshop();
    const before = await half(shop);
    for (const line of [['log'], ['next'], ['log', 'diff', '2026-01-01']]) {
      const { code, err } = await shop.run(...line, ...BIKE);
      expect(code).toBe(0);
      expect(err).toContain('entry 2 of the log is not on');
    }
    expect(shop.sheet()).toBe(before);
  });
});

describe('a file of the user', () => {
  it('is made by one of two that make it at once, and the other is told', async () => {
    const shop = workshop();
    const sets = ['front.travel=170', 'front.spring.kind=air', 'rear.travel=165', 'rear.spring.kind=air'];
    const make = (name: string) =>
      shop.run(
        'bike',
        'new',
        'my.yaml',
        '--kind',
        'enduro',
        '--name',
        name,
        ...sets.flatMap((s) => ['--set', s]),
      );
    const ran = await Promise.all(['one', 'two', 'three'].map(make));
    const written = ran.filter(({ err }) => err.includes('Written'));
    expect(written).toHaveLength(1);
    expect(ran.filter(({ err }) => err.includes('already exists'))).toHaveLength(2);
    expect(readdirSync(shop.folder).filter((name) => name.endsWith('.aside'))).toEqual([]);
  });
  it('keeps its rights when it is written again', async () => {
    const shop = workshop();
    chmodSync(join(shop.folder, 'bike.yaml'), 0o640);
    await shop.out('log', 'change', 'front.rebound.low+2', ...BIKE);
    expect(statSync(join(shop.folder, 'bike.yaml')).mode & 0o777).toBe(0o640);
  });
  it('leaves nothing over where its writer was killed behind giving it its name', async () => {
    const shop = workshop();
    const left = `.my.yaml.${'0'.repeat(16)}.aside`;
    for (const name of ['my.yaml', left]) writeFileSync(join(shop.folder, name), '');
    const { err } = await shop.run('bike', 'new', 'my.yaml', '--kind', 'enduro');
    expect(err).toContain('already exists');
    expect(readdirSync(shop.folder)).not.toContain(left);
  });
  it('is not taken for a leftover, whatever its name', async () => {
    const folder = tempFolder();
    const foreign = ['.a.yaml.99-1.aside', '.a.yaml.mine.aside', '.b.yaml.0123456789abcdef.aside'];
    for (const name of foreign) writeFileSync(join(folder, name), 'mine');
    writeFileSync(join(folder, '.a.yaml.0123456789abcdef.aside'), 'left');
    await replaceFile(join(folder, 'a.yaml'), 'new');
    expect(readdirSync(folder).toSorted()).toEqual([...foreign, 'a.yaml'].toSorted());
  });
});

it('keeps logs for nobody else to read', async () => {
  const shop = workshop('all-knobs', false);
  await shop.out('log', 'note', 'new grips', ...BIKE);
  const mode = (path: string): number => statSync(path).mode & 0o077;
  const home = shop.env['EARSHOT_HOME']!;
  for (const path of [home, join(home, 'bikes'), logFolder(shop)]) expect(mode(path)).toBe(0);
  for (const name of readdirSync(logFolder(shop))) expect(mode(join(logFolder(shop), name))).toBe(0);
});

it('keeps interviews for nobody else to read, and files of the user as they may be read', async () => {
  const { openAutosave } = await import('../../src/workspace/cases/autosave.ts');
  const root = tempFolder();
  const own = openAutosave(
    [{ path: join(root, 'own', 'i.yaml'), how: 'numbered', own: true }],
    () => undefined,
  );
  await own.keep(() => ({ case: 1 }), false);
  expect(readdirSync(join(root, 'own'))).toEqual(['i.yaml']);
  expect(statSync(own.path!).mode & 0o077).toBe(0);
  const saved = join(root, 'saved.yaml');
  writeFileSync(saved, '', { mode: 0o640 });
  chmodSync(saved, 0o640);
  await openAutosave([{ path: saved, how: 'replace' }], () => undefined).keep(() => ({ case: 1 }), true);
  expect(statSync(saved).mode & 0o777).toBe(0o640);
  expect(readdirSync(root).toSorted()).toEqual(['own', 'saved.yaml']);
});

it('says with 1, not with 2, that another is writing: nothing was asked for wrongly', async () => {
  const shop = workshop();
  await shop.out('log', 'note', 'first', ...BIKE);
  const { refusing } = await import('../../src/workspace/bikes/open-bike.ts');
  await withLock(logFolder(shop), async () => {
    const second = withLock(logFolder(shop), async () => undefined, { patience: 5 });
    await expect(refusing(() => second)).rejects.toMatchObject({
      exit: 1,
      message: expect.stringContaining('Another earshot'),
    });
  });
});

describe('a folder written aside', () => {
  const fill = (name: string) => async (aside: string) => writeFileSync(join(aside, name), 'x');
  it('is there whole, also over an empty folder', async () => {
    const place = join(tempFolder(), 'pack');
    mkdirSync(place);
    await folderAside(place, 'sign', fill('more'));
    expect(readdirSync(place).toSorted()).toEqual(['more', 'sign']);
    expect(readdirSync(join(place, '..'))).toEqual(['pack']);
  });
  it('leaves nothing when it cannot be filled, or may not take the place', async () => {
    const folder = tempFolder();
    const place = join(folder, 'pack');
    const fails = folderAside(place, 'sign', () => Promise.reject(new Error('no')));
    await expect(fails).rejects.toThrow('no');
    expect(readdirSync(folder)).toEqual([]);
    mkdirSync(place);
    writeFileSync(join(place, 'mine'), '');
    await expect(folderAside(place, 'sign', fill('more'))).rejects.toMatchObject({ code: 'ENOTEMPTY' });
    expect(readdirSync(folder)).toEqual(['pack']);
    expect(readdirSync(place)).toEqual(['mine']);
  });
  it('clears away what killed writers left, and nothing of a living one', async () => {
    const folder = tempFolder();
    const place = join(folder, 'pack');
    for (const hex of ['0', '1']) mkdirSync(join(folder, `.pack.${hex.repeat(16)}.aside`));
    writeFileSync(join(folder, `.pack.${'1'.repeat(16)}.aside`, 'sign'), '');
    let seen: string[] = [];
    await folderAside(place, 'sign', async () => {
      rmSync(place, { force: true, recursive: true });
      await folderAside(place, 'sign', fill('more'));
      seen = readdirSync(folder).filter((name) => name.endsWith('.aside'));
    }).catch(() => undefined);
    expect(seen).toHaveLength(1);
    expect(readdirSync(folder)).toEqual(['pack']);
  });
});
