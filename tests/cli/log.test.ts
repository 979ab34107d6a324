/** The log through the program: what it keeps, and that the sheet keeps step with it. */
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { earshot as run, shareKept, type Ran } from '../support/io.ts';

const shelf = mkdtempSync(join(tmpdir(), 'earshot-log-command-'));
afterAll(() => rmSync(shelf, { recursive: true, force: true }));
let cwd = '';
let home = '';
beforeEach(() => {
  cwd = mkdtempSync(join(shelf, 'case-'));
  home = join(cwd, 'home');
  shareKept(home);
  for (const name of ['all-knobs', 'coil'])
    copyFileSync(
      new URL(`../../examples/bikes/${name}.yaml`, import.meta.url),
      join(cwd, name === 'coil' ? 'coil.yaml' : 'b.yaml'),
    );
});

const earshot = (...argv: string[]): Promise<Ran> => run(argv, { cwd, env: { EARSHOT_HOME: home } });
const text = (file = 'b.yaml'): string => readFileSync(join(cwd, file), 'utf8');
const entries = async (): Promise<Record<string, unknown>[]> =>
  JSON.parse((await earshot('log', '--bike', 'b.yaml', '--format', 'json')).out).entries;

it('writes down where everything stood before the first change, also when words were noted before', async () => {
  await earshot('log', 'note', 'new grips', '--bike', 'b.yaml');
  await earshot('log', 'change', 'front.rebound.low+2', '--bike', 'b.yaml');
  expect((await entries()).map(({ kind }) => kind)).toEqual(['note', 'start', 'change']);
});

it('sets the sheet and writes it down, after where everything stood', async () => {
  const ran = await earshot('log', 'change', 'front.rebound.low+2', '--bike', 'b.yaml', '--reason', 'slow');
  expect(ran).toMatchObject({ code: 0, err: '' });
  expect(ran.out).toContain('front low-speed rebound 8 → 10 clicks');
  expect(text()).toContain('rebound: { low: { clicks: 16, now: 10, maker: 8 }');
  expect(text().split('\n')).toHaveLength(
    readFileSync('examples/bikes/all-knobs.yaml', 'utf8').split('\n').length,
  );
  expect(await entries()).toMatchObject([
    { entry: 1, kind: 'start' },
    {
      entry: 2,
      kind: 'change',
      reason: 'slow',
      changes: [{ setting: 'front.rebound.low', from: 8, to: 10, unit: 'clicks' }],
    },
  ]);
});

it.each([
  ['b.yaml', 'front.rebound.low+2,rear.spring-5psi,rear.ramp-up+1'],
  ['coil.yaml', 'rear.spring+1turns'],
  ['coil.yaml', 'rear.spring+25lb/in,bars+5mm'],
])('gives the very same file back by undo: %s %s', async (file, change) => {
  const before = text(file);
  expect((await earshot('log', 'change', change, '--bike', file)).code).toBe(0);
  expect(text(file)).not.toBe(before);
  expect((await earshot('log', 'undo', '--bike', file)).code).toBe(0);
  expect(text(file)).toBe(before);
});

it('goes back change by change, and says when there is nothing more', async () => {
  const before = text();
  for (const change of ['front.rebound.low+2', 'rear.compression.high-1', 'front.rebound.low+1'])
    await earshot('log', 'change', change, '--bike', 'b.yaml');
  for (let i = 0; i < 3; i++) expect((await earshot('log', 'undo', '--bike', 'b.yaml')).code).toBe(0);
  expect(text()).toBe(before);
  const more = await earshot('log', 'undo', '--bike', 'b.yaml');
  expect(more.code).toBe(2);
  expect(more.err).toBe(
    'There is no change to undo: the bike is as it was last counted. Nothing needs to be done.\n',
  );
});

it('puts on again what an undo took off, undo by undo, until something else is set', async () => {
  const bike = ['--bike', 'b.yaml'];
  const at = [text()];
  for (const change of ['front.rebound.low+2', 'front.spring+5psi,rear.rebound.low+1', 'front.tyre+1psi']) {
    await earshot('log', 'change', change, ...bike);
    at.push(text());
  }
  const go = async (way: string, to: number): Promise<void> => {
    expect((await earshot('log', way, ...bike)).code).toBe(0);
    expect(text()).toBe(at[to]);
  };
  const none = 'There is no undo to take back: nothing was undone since the last change.';
  expect((await earshot('log', 'redo', ...bike)).err).toContain(none);
  for (const [way, to] of [
    ['undo', 2],
    ['undo', 1],
    ['redo', 2],
    ['undo', 1],
    ['undo', 0],
    ['redo', 1],
    ['redo', 2],
    ['redo', 3],
    ['undo', 2],
  ] as const)
    await go(way, to);
  // The log stands where the sheet does.
  expect((await earshot('log', ...bike)).out).not.toContain('disagree');
  await earshot('log', 'change', 'rear.compression.low-1', ...bike);
  const late = await earshot('log', 'redo', ...bike);
  expect(late).toMatchObject({ code: 2, out: '' });
  expect(late.err).toContain(none);
});

it('counts what was put on again as a change of that day, and does not put on what was counted since', async () => {
  const bike = ['--bike', 'b.yaml'];
  await earshot('log', 'change', 'front.rebound.low+2', ...bike);
  await earshot('log', 'undo', ...bike);
  await earshot('log', 'redo', '--reason', 'packs down after all', ...bike);
  expect((await entries()).at(-1)).toMatchObject({
    kind: 'change',
    undoes: 3,
    reason: 'packs down after all',
    changes: [{ setting: 'front.rebound.low', from: 8, to: 10 }],
  });
  await earshot('log', 'undo', ...bike);
  await earshot('bike', 'set', 'front.rebound.low=6', ...bike);
  expect((await earshot('log', 'redo', ...bike)).code).toBe(2);
});

it.each([
  ['front.rebound.low+99', 1, 'beyond its stop'],
  ['front.rebound', 2, 'is not a change'],
  ['front.spring+5', 2, 'needs a unit'],
])('changes nothing when it cannot be made: %s', async (change, code, says) => {
  const before = text();
  const ran = await earshot('log', 'change', change, '--bike', 'b.yaml');
  expect(ran.code).toBe(code);
  expect(ran.err).toContain(says);
  expect(text()).toBe(before);
  expect(await entries()).toEqual([]);
});

it('says where sheet and log disagree, until the bike is counted afresh', async () => {
  await earshot('log', 'change', 'front.rebound.low+2', '--bike', 'b.yaml');
  writeFileSync(join(cwd, 'b.yaml'), text().replace('now: 10, maker: 8', 'now: 12, maker: 8'));
  const told = (await earshot('log', '--bike', 'b.yaml')).out.replaceAll(/\s+/g, ' ');
  expect(told).toContain(
    'front low-speed rebound: 12 clicks from closed on the sheet, 10 clicks from closed in the log',
  );
  expect(told).toContain('earshot bike set front.rebound.low=N --bike b.yaml');
  await earshot('log', 'start', '--bike', 'b.yaml', '--reason', 'counted');
  expect((await earshot('log', '--bike', 'b.yaml')).out).not.toContain('disagree');
});

it('says once what an undo takes back, and why when there is a reason', async () => {
  const change = () => earshot('log', 'change', 'front.rebound.low+1', '--bike', 'b.yaml');
  await change();
  const plain = (await earshot('log', 'undo', '--bike', 'b.yaml')).out;
  expect(plain.match(/takes back entry 2/g)).toHaveLength(1);
  expect(plain).not.toContain('because');
  await change();
  const why = (await earshot('log', 'undo', '--bike', 'b.yaml', '--reason', 'harsh')).out;
  expect(why).toMatch(/because: harsh\n +takes back entry 4\n/);
});

it('prints nothing of a reason or a note that moves the cursor', async () => {
  await earshot('log', 'note', 'a\u001b[31mb', '--bike', 'b.yaml');
  const change = [
    'log',
    'change',
    'front.rebound.low+1',
    '--bike',
    'b.yaml',
    '--reason',
    'c\u202ed\u001b[2J',
  ];
  const told = [
    await earshot(...change),
    await earshot('log', '--bike', 'b.yaml'),
    await earshot('next', '--bike', 'b.yaml'),
  ];
  for (const { code, out } of told) {
    expect(code).toBe(0);
    expect(out).not.toMatch(/(?!\n)[\p{Cc}\u202e]/u);
  }
  expect((await entries())[0]).toMatchObject({ reason: 'a\u001b[31mb' });
});

it('tells what differs, leaving out what was only counted', async () => {
  await earshot('log', 'change', 'front.rebound.low+2', '--bike', 'b.yaml');
  const diff = (...days: string[]): Promise<Ran> => earshot('log', 'diff', ...days, '--bike', 'b.yaml');
  const { out } = await diff('2026-05-03', '2026-05-05');
  expect(out).toMatch(/^front low-speed rebound +8 clicks from closed +10 clicks from closed +2$/m);
  expect(out).not.toContain('rear.');
  expect((await diff('2026-05-05', '2026-05-03')).out).toBe(out);
  expect((await diff('2026-04-01', '2026-04-02')).out).toContain('Nothing.');
  for (const day of ['yesterday', '2026-02-30', '2026-13-01'])
    expect(await diff(day)).toMatchObject({ code: 2, err: expect.stringContaining('is not a date') });
});

it('keeps words, and exports everything', async () => {
  await earshot('log', 'note', 'new', 'pads, "soft"', '--bike', 'b.yaml');
  const csv = (await earshot('log', 'export', '--bike', 'b.yaml')).out;
  expect(csv.split('\r\n')[1]).toBe('1,2026-05-04T10:20:30.000Z,note,,,,,,"new pads, ""soft""",,,');
  const json = JSON.parse((await earshot('log', 'export', '--bike', 'b.yaml', '--format', 'json')).out);
  expect(json).toMatchObject({ format: 1, bike: 'birch', entries: [{ kind: 'note' }] });
});

it('fits 80 columns', async () => {
  await earshot(
    'log',
    'change',
    'front.rebound.low+2,rear.spring-5psi',
    '--bike',
    'b.yaml',
    '--reason',
    'word '.repeat(60),
  );
  const { out } = await earshot('log', '--bike', 'b.yaml');
  expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
});

it('says in one line what is wrong with a log, with its place, and loses nothing', async () => {
  await earshot('log', 'change', 'front.rebound.low+2', '--bike', 'b.yaml');
  const file = join(home, 'bikes', 'birch', 'history.yaml');
  const broken = readFileSync(file, 'utf8').replace('kind: change', 'kind: chnage');
  writeFileSync(file, broken);
  const before = text();
  for (const argv of [['log'], ['log', 'undo'], ['log', 'change', 'rear.rebound.low+1']]) {
    const ran = await earshot(...argv, '--bike', 'b.yaml');
    expect(ran).toMatchObject({ code: 2, out: '' });
    expect(ran.err).toMatch(/history\.yaml:\d+:\d+: kind: /);
    expect(ran.err).not.toContain('fault in earshot');
  }
  expect(readFileSync(file, 'utf8')).toBe(broken);
  expect(text()).toBe(before);
});

it('keeps to a narrow screen', async () => {
  await earshot('log', 'change', 'front.rebound.low+2', '--bike', 'b.yaml');
  const { out } = await run(['log', '--bike', 'b.yaml'], {
    cwd,
    env: { EARSHOT_HOME: home },
    tty: true,
    width: 40,
  });
  expect(out.split('\n').filter((line) => line.length > 40)).toEqual([]);
});

it.each([
  [['log', '--bike', 'b.yaml', 'undo'], 'Put undo before the options: earshot log undo ...\n'],
  [['log', 'undoo', '--bike', 'b.yaml'], 'Did you mean undo?'],
])('says where a command belongs: %j', async (argv, said) => {
  const ran = await earshot(...argv);
  expect(ran).toMatchObject({ code: 2, out: '' });
  expect(ran.err).toContain(said);
});

describe('a history that was cut', () => {
  const history = (): string => join(home, 'bikes', 'birch', 'history.yaml');
  const cut = 'has an unfinished entry. It does not count, and the next entry puts it aside.';
  beforeEach(async () => {
    await earshot('log', 'change', 'front.rebound.low+2', '--bike', 'b.yaml');
    writeFileSync(history(), readFileSync(history(), 'utf8').slice(0, -20));
  });

  it.each([
    [['next']],
    [['log']],
    [['log', 'change', 'rear.rebound.low+1']],
    [['bike', 'set', 'rear.tyre=25psi']],
    [['trial', 'plan', '--change', 'rear.rebound.low+1']],
    [['diagnose', new URL('../../examples/cases/nothing-wrong.yaml', import.meta.url).pathname]],
  ])('is told once by all that read it: %j', async (line) => {
    const { err } = await earshot(...line, '--bike', 'b.yaml');
    expect(err.split(cut)).toHaveLength(2);
  });

  it('is said to be put aside by what writes after it', async () => {
    const { err } = await earshot('log', 'note', 'new grips', '--bike', 'b.yaml');
    expect(err).toContain('was put aside, into ');
    expect((await earshot('next', '--bike', 'b.yaml')).err).toBe('');
  });

  it('is missed where the log has trials, or an empty file, and not where there never was one', async () => {
    writeFileSync(history(), '');
    expect((await earshot('next', '--bike', 'b.yaml')).err).toContain('is empty, and this bike has a log');
    await earshot('trial', 'plan', '--change', 'rear.rebound.low+1', '--bike', 'b.yaml');
    rmSync(history());
    expect((await earshot('next', '--bike', 'b.yaml')).err).toContain('is gone, and this bike has trials');
    expect((await earshot('next', '--bike', 'coil.yaml')).err).toBe('');
  });
});

describe('a sheet that was edited by hand', () => {
  const bike = ['--bike', 'b.yaml'];
  const edit = (): void =>
    writeFileSync(
      join(cwd, 'b.yaml'),
      text().replace('{ clicks: 16, now: 10, maker: 8 }', '{ clicks: 16, now: 3, maker: 8 }'),
    );
  beforeEach(async () => {
    await earshot('log', 'change', 'front.rebound.low+2', ...bike);
    edit();
  });

  it('is brought together with its log by a count of what the sheet says already', async () => {
    const settle = 'earshot bike set front.rebound.low=N --bike b.yaml';
    expect((await earshot('log', ...bike)).out).toContain(settle);
    const before = (await earshot('next', ...bike)).out;
    expect(before).toContain(settle);
    expect(await earshot('bike', 'set', 'front.rebound.low=3', ...bike)).toMatchObject({ code: 0, err: '' });
    expect((await entries()).at(-1)).toMatchObject({
      kind: 'counted',
      changes: [{ setting: 'front.rebound.low', from: 10, to: 3, unit: 'clicks' }],
    });
    expect((await earshot('log', ...bike)).out).not.toContain('disagree');
    // The change that is not on the bike any more is not to be tested.
    expect((await earshot('next', ...bike)).out).toContain('Nothing is open on this bike');
    expect((await earshot('bike', 'set', 'front.rebound.low=3', ...bike)).code).toBe(1);
  });

  it('is told of by an undo, which sets both', async () => {
    const { code, err } = await earshot('log', 'undo', ...bike);
    expect(code).toBe(0);
    expect(err).toContain(
      'front low-speed rebound: the sheet said 3 clicks from closed, the log 10 clicks from closed (entry 2). Both say now where it was before',
    );
    expect((await earshot('log', ...bike)).out).not.toContain('disagree');
  });
});

it('takes no word for a number of clicks from a log that was edited by hand', async () => {
  await earshot('log', 'change', 'front.rebound.low+2', '--bike', 'b.yaml');
  const file = join(home, 'bikes', 'birch', 'history.yaml');
  writeFileSync(file, readFileSync(file, 'utf8').replace('to: 10\n', 'to: ten\n'));
  const { code, err } = await earshot('next', '--bike', 'b.yaml');
  expect(code).toBe(2);
  expect(err).toMatch(/history\.yaml:\d+:\d+: changes › entry 1 › to: "ten": expected a number in clicks\./);
});
