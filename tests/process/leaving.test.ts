import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import { KEYS, Terminal } from '../support/terminal.ts';

let home: string;
beforeEach(() => void (home = mkdtempSync(join(tmpdir(), 'earshot-leaving-'))));
afterEach(() => rmSync(home, { recursive: true, force: true }));

interface Kept {
  readonly answers: Readonly<Record<string, unknown>>;
}

/** Every whole file that interviews left. */
const kept = (): Kept[] =>
  readdirSync(join(home, 'interviews'))
    .filter((name) => !name.startsWith('.'))
    .map((name) => parse(readFileSync(join(home, 'interviews', name), 'utf8')) as Kept);

/** Two answers given, the third question asked. */
async function twoAnswers(argv: readonly string[] = [], env: Record<string, string> = {}): Promise<Terminal> {
  const terminal = new Terminal(['interview', ...argv], { env: { EARSHOT_HOME: home, ...env } });
  await terminal.see('or your own words:');
  await terminal.answer('8', 'Question 1');
  await terminal.answer('1', 'Question 2');
  await terminal.answer('1', 'Tried anything yet?');
  await terminal.answer('1', 'Question 3');
  return terminal;
}

const TWO = { 'safety.found': 'none', 'safety.brakes': 'good' };

describe('leaving an interview', () => {
  it('by Ctrl-C keeps the answers, says where, and exits with 130', async () => {
    const terminal = await twoAnswers();
    await terminal.answer(KEYS.ctrlC, 'Saved 2 answers in');
    expect(await terminal.ended()).toBe(130);
    expect(terminal.text).toContain('Carry on: earshot interview --resume');
    expect(kept()).toMatchObject([{ answers: TWO }]);
  });
  it('by Ctrl-D, the end of the input, keeps the answers and exits with 1', async () => {
    const terminal = await twoAnswers();
    await terminal.answer(KEYS.ctrlD, 'Saved 2 answers in');
    expect(await terminal.ended()).toBe(1);
    expect(kept()).toMatchObject([{ answers: TWO }]);
  });
  it('by Ctrl-Z is only a pause: it goes on where it was', async () => {
    const terminal = await twoAnswers();
    await terminal.type('\u001a');
    const pid = await terminal.pid();
    // The shell's part. A process of a terminal without a shell is not stopped by Ctrl-Z, but is told to go on all the
    // same; several times, since nothing shows when Ctrl-Z was read.
    for (let i = 0; i < 5; i++) {
      await new Promise((resolve) => setTimeout(resolve, 100));
      process.kill(pid, 'SIGCONT');
    }
    await terminal.see('Question 3');
    await terminal.answer('1', 'Question 4');
    await terminal.answer(KEYS.ctrlC, 'Saved 3 answers in');
    expect(await terminal.ended()).toBe(130);
  });
  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 130],
  ] as const)('by %s keeps the answers, says where, and exits with %i', async (signal, code) => {
    const terminal = await twoAnswers();
    process.kill(await terminal.pid(), signal);
    await terminal.see('Saved 2 answers in');
    expect(await terminal.ended()).toBe(code);
    expect(kept()).toMatchObject([{ answers: TWO }]);
  });
  it.each([
    ['that redraws', { TERM: 'xterm-256color' }, ''],
    ['that only prints lines', { TERM: 'dumb' }, '\n'],
  ])(
    'by closing a terminal %s keeps the answers and ends as SIGHUP ends a program',
    async (_, env, enter) => {
      const codeFile = join(home, 'code');
      const terminal = new Terminal(['interview'], { codeFile, env: { EARSHOT_HOME: home, ...env } });
      await terminal.see('or your own words:');
      await terminal.answer(`8${enter}`, 'Question 1');
      await terminal.answer(`1${enter}`, 'Question 2');
      terminal.hangUp();
      await vi.waitUntil(() => existsSync(codeFile) && readFileSync(codeFile, 'utf8') !== '', {
        timeout: 10_000,
      });
      // 128 + 1; not the crash that Node makes of exiting without its terminal.
      expect(readFileSync(codeFile, 'utf8')).toBe('129\n');
      expect(kept()).toMatchObject([{ answers: { 'safety.found': 'none' } }]);
    },
  );
  it('by kill -9 leaves a file that can be read and gone on from', async () => {
    const terminal = await twoAnswers();
    process.kill(await terminal.pid(), 'SIGKILL');
    await terminal.ended();
    expect(kept()).toMatchObject([{ answers: TWO }]);
    const again = new Terminal(['interview', '--resume'], { env: { EARSHOT_HOME: home } });
    // What was tried was asked before it was killed, and is not asked again.
    await again.see('Question 3');
    expect(again.raw).not.toContain('Tried anything yet?');
    await again.answer(KEYS.ctrlC, 'Saved 2 answers in');
    expect(kept()).toHaveLength(1);
  });
  it('before the first answer leaves no file and says so', async () => {
    const terminal = new Terminal(['interview'], { env: { EARSHOT_HOME: home } });
    await terminal.see('or your own words:');
    await terminal.answer(KEYS.ctrlC, 'Nothing was answered, so nothing was saved.');
    expect(await terminal.ended()).toBe(130);
    expect(readdirSync(home)).toEqual([]);
  });
  it('in the middle of typing own words loses no answer', async () => {
    const terminal = new Terminal(['interview'], { env: { EARSHOT_HOME: home } });
    await terminal.see('or your own words:');
    for (const key of 'it kicks') terminal.send(key);
    await terminal.answer(KEYS.ctrlC, 'Nothing was answered');
    expect(await terminal.ended()).toBe(130);
  });
  it('works alike where the terminal can only print lines', async () => {
    const terminal = new Terminal(['interview'], { env: { EARSHOT_HOME: home, TERM: 'dumb' } });
    await terminal.see('or your own words:');
    await terminal.answer('8\n', 'Question 1');
    await terminal.answer('1\n', 'Question 2');
    await terminal.answer(KEYS.ctrlC, 'Saved 1 answer in');
    expect(await terminal.ended()).toBe(130);
    expect(terminal.raw).not.toContain('\u001b[');
    const other = new Terminal(['interview', '--resume'], { env: { EARSHOT_HOME: home, TERM: 'dumb' } });
    await other.see('Question 2');
    await other.answer(KEYS.ctrlD, 'Saved 1 answer in');
    expect(await other.ended()).toBe(1);
  });
});
