/** Files of anybody's: what they name is not opened, what they hold moves no cursor, what they left is not believed. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import type { Io } from '../../src/host/io.ts';
import { ROOT } from '../../src/host/root.ts';
import { mayBeNamed } from '../../src/workspace/bikes/named-sheet.ts';
import { tempFolder } from '../logbook/places.ts';
import { earshot } from '../support/io.ts';

const SHEET = readFileSync(join(ROOT, 'examples/bikes/all-knobs.yaml'), 'utf8');
const CASE = { case: 1, id: 'c', answers: { 'hit-pattern': 'row' } };

/** A folder with a case in `cases/`, secrets outside it, and the program started in `here/`. */
function shelf(bike: string): {
  readonly root: string;
  readonly run: (...argv: string[]) => ReturnType<typeof earshot>;
} {
  const root = realpathSync(tempFolder());
  for (const name of ['cases', 'here', 'bikes', 'home']) mkdirSync(join(root, name));
  writeFileSync(join(root, 'secret.txt'), 'key-of-the-shop: [open sesame\n');
  writeFileSync(join(root, 'bikes', 'b.yaml'), SHEET);
  writeFileSync(join(root, 'cases', 'b.yaml'), SHEET);
  writeFileSync(join(root, 'cases', 'odd.yaml'), 'pass: [word\n');
  symlinkSync(join(root, 'secret.txt'), join(root, 'cases', 'link.yaml'));
  writeFileSync(join(root, 'cases', 'c.yaml'), stringify({ ...CASE, bike }));
  return {
    root,
    run: (...argv) => earshot(argv, { cwd: join(root, 'here') }),
  };
}

describe('the bike sheet that a case names', () => {
  it.each([
    '../secret.txt',
    '/etc/passwd',
    'link.yaml',
    '../bikes/b.yaml',
    '../cases/../secret.txt',
    '/dev/zero',
  ])('is not opened outside the folder of the case: %s', async (bike) => {
    const { code, out, err } = await shelf(bike).run('diagnose', '../cases/c.yaml');
    expect(code).not.toBe(0);
    expect(err).toMatch(/was not opened|not a regular file/);
    expect(out + err).not.toMatch(/sesame|key-of|root:/);
  });
  it('is opened beside the case, in the folder the program was started in, and in one that is allowed', async () => {
    expect((await shelf('b.yaml').run('diagnose', '../cases/c.yaml')).code).toBe(0);
    const { root, run } = shelf('../bikes/b.yaml');
    expect((await run('diagnose', '../cases/c.yaml')).code).not.toBe(0);
    expect((await run('--bikes', '../bikes', 'diagnose', '../cases/c.yaml')).code).toBe(0);
    expect((await run('diagnose', '../cases/c.yaml', '--bike', '../bikes/b.yaml')).code).toBe(0);
    const inside = await earshot(['diagnose', 'cases/c.yaml'], { cwd: root });
    expect(inside.code).toBe(0);
  });
  it('tells nothing of a file that is no sheet', async () => {
    const { err } = await shelf('odd.yaml').run('diagnose', '../cases/c.yaml');
    expect(err).toContain('this is not a bike sheet');
    expect(err).not.toMatch(/pass|word/);
  });
  it.each([
    ['a sheet', 'b.yaml'],
    ['anything else', 'odd.yaml'],
  ])('may be no larger than a sheet is: %s', async (_, bike) => {
    const { root, run } = shelf(bike);
    truncateSync(join(root, 'cases', bike), 2 * 1024 * 1024);
    expect((await run('diagnose', '../cases/c.yaml')).err).toContain('larger than 1 MB');
  });
  it.skipIf(process.platform === 'win32')(
    'is never waited for, and the rest of a batch is told',
    async () => {
      const { root, run } = shelf('b.yaml');
      spawnSync('mkfifo', [join(root, 'cases', 'pipe')]);
      const lines = [
        { ...CASE, id: 'waits', bike: 'pipe' },
        { ...CASE, id: 'goes on' },
      ];
      writeFileSync(join(root, 'cases', 'all.ndjson'), lines.map((one) => JSON.stringify(one)).join('\n'));
      const { code, out, err } = await run('diagnose', '../cases/all.ndjson', '--format', 'ndjson');
      expect(code).toBe(1);
      expect(err).toContain('not a regular file');
      expect(out).toContain('goes on');
    },
  );
  // Where reading it would wait for ever: an interview that goes on from a case reads it as one of its own.
  it.skipIf(process.platform === 'win32')('is looked at before it is opened, when it is a pipe', () => {
    const { root } = shelf('pipe');
    const cases = join(root, 'cases');
    spawnSync('mkfifo', [join(cases, 'pipe')]);
    const io = { cwd: cases, env: { EARSHOT_HOME: join(root, 'home') } } as unknown as Io;
    expect(() => mayBeNamed('pipe', cases, undefined, io)).toThrow('not a regular file');
    expect(() => mayBeNamed('b.yaml', cases, undefined, io)).not.toThrow();
  });
  it('is held to the same when an interview goes on from the case', async () => {
    const { interview } = await import('../../src/cli/commands/interview.ts');
    const { root } = shelf('../secret.txt');
    const asked = interview(
      {
        for: 'mechanic',
        log: true,
        rules: [],
        resume: '../cases/c.yaml',
        prompter: () => Promise.reject(new Error('asked')),
      },
      {
        out: () => undefined,
        err: () => undefined,
        stdin: (async function* () {})(),
        cwd: join(root, 'here'),
        env: { EARSHOT_HOME: join(root, 'home') },
        stdinIsTty: true,
        stdoutIsTty: true,
        stderrIsTty: true,
        width: 80,
        now: () => new Date(),
      },
    );
    await expect(asked).rejects.toMatchObject({
      name: 'Refusal',
      message: expect.stringContaining('was not opened'),
    });
  });
});

describe('what goes to the screen', () => {
  const EVIL = '\u001b[2J\u001b]0;owned\u0007\u009b31m\u202Eevil';
  it.each([['text'], ['markdown'], ['csv'], ['json'], ['ndjson']])(
    'moves no cursor, whatever a case is called and says: %s',
    async (format) => {
      const { root, run } = shelf('b.yaml');
      writeFileSync(
        join(root, 'cases', 'c.yaml'),
        stringify({ ...CASE, id: EVIL, said: EVIL, bike: 'b.yaml' }),
      );
      const { code, out } = await run('diagnose', '../cases/c.yaml', '--format', format, '--color', 'always');
      expect(code).toBe(0);
      expect(out.replaceAll(/\u001b\[(?:1|2|22|32|33|39)m/g, '')).not.toMatch(
        /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202E]/,
      );
      // In JSON nothing of it is lost.
      if (format === 'ndjson') expect(JSON.parse(out).case).toBe(EVIL);
      if (format === 'json') expect(JSON.parse(out)[0].case).toBe(EVIL);
    },
  );
  it('moves no cursor either where a pack is shown, and has no colours unasked', async () => {
    const { root, run } = shelf('b.yaml');
    const pack = join(root, 'pack');
    cpSync(join(ROOT, 'examples/packs/night-ride'), pack, { recursive: true });
    const file = readdirSync(pack).find((name) => name !== 'pack.yaml' && !name.includes('checks'))!;
    const text = readFileSync(join(pack, file), 'utf8');
    writeFileSync(
      join(pack, file),
      text.replaceAll(/^( +(?:- )?(?:ask|say|name): ).*$/gm, `$1"\\e[2J\\e[1mevil"`),
    );
    const { out } = await run('--rules', pack, 'rules', 'show', 'questions');
    expect(out).not.toContain('\u001b');
  });
});

describe('the compiled form of a pack', () => {
  const pack = join(ROOT, 'examples/packs/night-ride');
  const show = (home: string) =>
    earshot(['--rules', pack, 'rules', 'show', 'causes'], { env: { EARSHOT_HOME: home } });
  const kept = (home: string): string => {
    const folder = join(home, 'earshot', 'rules');
    return join(
      folder,
      readdirSync(folder).find((name) => name.endsWith('.json'))!,
    );
  };
  /** Another cause in it, under a checksum that anybody can reckon: whole but for the key. */
  const tamper = (file: string): void => {
    const whole = readFileSync(file, 'utf8');
    const cut = whole.indexOf('\n');
    const body = whole.slice(cut + 1).replaceAll('too-slow', 'tampered');
    expect(body).toContain('tampered');
    writeFileSync(file, `${createHash('sha256').update(body).digest('hex').padEnd(cut)}\n${body}`);
  };
  it('is used again when it is ours, and not when it was tampered with', async () => {
    const home = tempFolder();
    const { out } = await show(home);
    const file = kept(home);
    const written = statSync(file).mtimeMs;
    expect((await show(home)).out).toBe(out);
    expect(statSync(file).mtimeMs).toBe(written);
    tamper(file);
    expect((await show(home)).out).toBe(out);
    expect(readFileSync(file, 'utf8')).not.toContain('tampered');
  });
  it.skipIf(process.platform === 'win32')('is not used where others may write', async () => {
    for (const loosen of ['', 'rules']) {
      const home = tempFolder();
      const { out } = await show(home);
      const file = kept(home);
      const before = statSync(file).ino;
      chmodSync(loosen === '' ? file : join(home, 'earshot', 'rules'), 0o777);
      expect((await show(home)).out).toBe(out);
      if (loosen === '') expect(statSync(file).ino).not.toBe(before);
    }
  });
  it.skipIf(process.platform === 'win32')(
    'is private, follows no link, and is let go when it is old',
    async () => {
      const home = tempFolder();
      const folder = join(home, 'earshot', 'rules');
      mkdirSync(folder, { recursive: true, mode: 0o700 });
      const victim = join(home, 'victim');
      writeFileSync(victim, 'mine');
      symlinkSync(victim, join(folder, 'key'));
      for (let i = 0; i < 12; i++) writeFileSync(join(folder, `${i}.json`), '');
      await show(home);
      expect(readFileSync(victim, 'utf8')).toBe('mine');
      const names = readdirSync(folder).filter((name) => name.endsWith('.json'));
      expect(names).toHaveLength(8);
      for (const name of ['key', ...names.filter((one) => one.length > 20)])
        expect(statSync(join(folder, name)).mode & 0o077).toBe(0);
    },
  );
  it('is nowhere near the working folder when the places for it are empty', () => {
    const cwd = tempFolder();
    const env = {
      PATH: process.env['PATH'],
      HOME: '',
      XDG_CACHE_HOME: 'rel',
      XDG_DATA_HOME: '',
      EARSHOT_HOME: '',
    };
    const bin = join(ROOT, 'bin', 'earshot.js');
    const ran = spawnSync(process.execPath, [bin, '--rules', pack, 'rules', 'show', 'causes'], { cwd, env });
    expect(ran.status).toBe(0);
    expect(readdirSync(cwd)).toEqual([]);
    expect(existsSync(join(cwd, 'rel'))).toBe(false);
  });
});
