import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { BIKE, childProgram, ended, open, smallDisk, start, tempFolder } from './places.ts';

let program = '';
beforeAll(async () => {
  program = await childProgram();
});

const root = tempFolder();
const disk = smallDisk(256);
const isRoot = process.getuid?.() === 0;
const NOBODY = { uid: 65534, gid: 65534 };

/** Runs one write in a process without the right to write; root has every right, so root steps down. */
async function withoutRights(home: string): Promise<string> {
  return (await ended(start(program, [home, BIKE, 'once', '', '10'], isRoot ? NOBODY : undefined))).out;
}

test('a folder that may not be written: told with a remedy, read all the same, nothing changed', async () => {
  const home = join(root, 'locked');
  const log = await open(home);
  await log.append({ kind: 'note', reason: 'first' });
  const file = join(log.folder, 'history.yaml');
  const before = readFileSync(file);
  const folders = [home, join(home, 'bikes'), log.folder];
  for (const folder of folders) chmodSync(folder, 0o555);
  try {
    expect(await withoutRights(home)).toMatch(/^LogError read-only: .*may not be written\. .*EARSHOT_HOME/);
    expect(readFileSync(file).equals(before)).toBe(true);
    expect((await log.readHistory()).entries).toHaveLength(1);
  } finally {
    for (const folder of folders) chmodSync(folder, 0o755);
  }
});

test('a home that cannot be made is told too', async () => {
  const home = join(root, 'parent', 'home');
  mkdirSync(join(root, 'parent'), { mode: 0o555 });
  expect(await withoutRights(home)).toMatch(/^LogError read-only: /);
  chmodSync(join(root, 'parent'), 0o755);
});

// A test of its own process: what it guards against is a loop that nothing inside the process can end.
test.skipIf(process.platform !== 'linux')(
  'a place that takes no folders, and a working folder that was removed, end with a word',
  () => {
    const once = [program, '/proc/self/no-such', BIKE, 'once', '', '10'];
    const run = (script: string): string =>
      spawnSync('sh', ['-c', script, process.execPath, ...once], { encoding: 'utf8', timeout: 20_000 })
        .stdout;
    expect(run('exec "$0" "$@"')).toMatch(/^LogError gone: .*cannot be written to\. .*EARSHOT_HOME/);
    const gone = join(root, 'gone');
    mkdirSync(gone);
    const inGone = `cd ${gone} && rmdir ${gone} && shift 2 && exec "$0" ${program} /proc/self/cwd/home "$@"`;
    expect(run(inGone)).toMatch(/^LogError gone: /);
  },
);

test('a file in the place of the home, or of a folder in it', async () => {
  const home = join(root, 'file');
  writeFileSync(home, 'I was here first');
  await expect(open(home)).rejects.toMatchObject({ code: 'not-a-folder' });
  expect(readFileSync(home, 'utf8')).toBe('I was here first');
  const log = await open(join(root, 'inner'));
  await log.append({ kind: 'note', reason: 'x' });
  writeFileSync(join(log.folder, 'cases'), '');
  await expect(log.saveCase('c', {})).rejects.toMatchObject({ code: 'not-a-folder' });
});

// Where mounting is not permitted this is reported as skipped; the next test holds the same on a limit of file size.
test.skipIf(disk === undefined)(
  'a full disk: told with a remedy, what was there is unharmed, and it goes on when there is room',
  async () => {
    const home = join(disk!, 'home');
    const log = await open(home);
    await log.append({ kind: 'note', reason: 'first' });
    await log.saveTrial('t', () => ({ filling: 'a'.repeat(1000) }));
    const file = join(log.folder, 'history.yaml');
    const before = readFileSync(file);
    const free = join(disk!, 'filler');
    execFileSync('sh', ['-c', `head -c 1000000 /dev/zero > ${free} 2>/dev/null || true`]);
    truncateSync(free, statSync(free).size - 12_288); // three pages: a part of a write fits
    await expect(log.append({ kind: 'note', reason: 'b'.repeat(30_000) })).rejects.toMatchObject({
      code: 'disk-full',
      message: expect.stringContaining('the disk is full'),
    });
    expect(readFileSync(file).equals(before)).toBe(true);
    await expect(log.saveTrial('t', () => ({ filling: 'c'.repeat(30_000) }))).rejects.toMatchObject({
      code: 'disk-full',
    });
    expect((await log.loadTrials()).papers[0]!.data['filling']).toBe('a'.repeat(1000));
    rmSync(free);
    expect((await log.append({ kind: 'note', reason: 'b'.repeat(30_000) })).entry.entry).toBe(2);
  },
);

test('a write of which only a part fits is taken back', async () => {
  const home = join(root, 'limit');
  const log = await open(home);
  await log.append({ kind: 'note', reason: 'first' });
  const before = readFileSync(join(log.folder, 'history.yaml'));
  // 16 blocks of 1024 bytes a file at most
  const limited = ['-c', 'ulimit -f 16; exec "$@"', 'bash', process.execPath, program, home, BIKE];
  const child = spawn('bash', [...limited, 'once', '', '40000'], { stdio: ['ignore', 'pipe', 'inherit'] });
  const { out } = await ended(child);
  expect(out).toMatch(/^LogError disk-full: /);
  expect(readFileSync(join(log.folder, 'history.yaml')).equals(before)).toBe(true);
});

test('a log of a newer version: told, nothing read or changed', async () => {
  const home = join(root, 'newer');
  const log = await open(home);
  await log.append({ kind: 'note', reason: 'x' });
  const file = join(log.folder, 'log.yaml');
  writeFileSync(file, 'log: 7\nbike: park-bike\nshelves: 3\n');
  await expect(open(home)).rejects.toMatchObject({
    code: 'newer-version',
    message: expect.stringContaining('format 7; this one knows 1'),
  });
  // one that was opened before the newer version came along notices as well
  await expect(log.append({ kind: 'note', reason: 'y' })).rejects.toMatchObject({ code: 'newer-version' });
  expect(readFileSync(file, 'utf8')).toContain('shelves: 3');
});

test('a broken log file is told with its line', async () => {
  const home = join(root, 'broken');
  const log = await open(home);
  await log.append({ kind: 'note', reason: 'x' });
  writeFileSync(join(log.folder, 'log.yaml'), 'log: 1\nbyke: park-bike\n');
  await expect(open(home)).rejects.toMatchObject({
    code: 'broken-file',
    message: expect.stringContaining('log.yaml:2:1'),
  });
});

test('a folder that says it belongs to another bike is refused', async () => {
  const home = join(root, 'other');
  const log = await open(home);
  await log.append({ kind: 'note', reason: 'x' });
  writeFileSync(join(log.folder, 'log.yaml'), 'log: 1\nbike: another\n');
  await expect(open(home)).rejects.toMatchObject({ code: 'other-bike' });
});
