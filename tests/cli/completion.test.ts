import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { earshot } from '../support/io.ts';

let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'earshot-complete-'));
  mkdirSync(join(dir, 'rules'));
  writeFileSync(join(dir, 'my case.yaml'), '');
  writeFileSync(join(dir, 'bike.yaml'), '');
  for (const shell of ['bash', 'zsh', 'fish'])
    writeFileSync(join(dir, `script.${shell}`), (await earshot(['completion', shell])).out);
});
afterAll(() => rmSync(dir, { recursive: true }));

/** What bash offers for the last word, which may be empty. */
function offered(...words: string[]): string[] {
  const program =
    'source script.bash; COMP_WORDS=(earshot "$@"); COMP_CWORD=$#; _earshot; for one in "${COMPREPLY[@]}"; do echo "$one"; done';
  const out = execFileSync('bash', ['--norc', '-c', program, 'bash', ...words], {
    cwd: dir,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return out.split('\n').filter(Boolean);
}

describe('completion in bash', () => {
  it('offers the commands, and those of a command', () => {
    expect(offered('')).toEqual(expect.arrayContaining(['diagnose', 'interview', 'rules', 'help']));
    expect(offered('dia')).toEqual(['diagnose']);
    expect(offered('rules', 'sh')).toEqual(['show']);
    expect(offered('help', 'expl')).toEqual(['explain']);
  });
  it('offers the options of the command at hand and those of the program', () => {
    expect(offered('diagnose', '--f')).toEqual(['--format', '--full', '--for']);
    expect(offered('diagnose', '--col')).toEqual(['--color']);
    expect(offered('diagnose', '--con')).toEqual([]);
    expect(offered('explain', '--con')).toEqual(['--conflict']);
    expect(offered('--ver')).toEqual(['--version']);
  });
  it('offers the choices of an option, after a space and after =', () => {
    expect(offered('diagnose', '--format', 'm')).toEqual(['markdown']);
    expect(offered('diagnose', '-f', '')).toEqual(['text', 'json', 'ndjson', 'csv', 'markdown']);
    expect(offered('diagnose', '--format', '=', 'n')).toEqual(['ndjson']);
    expect(offered('diagnose', '--format', '=')).toEqual(['text', 'json', 'ndjson', 'csv', 'markdown']);
    expect(offered('completion', '')).toEqual(['bash', 'zsh', 'fish']);
  });
  it('offers files where a file goes, also with a space in the name, and folders where a folder goes', () => {
    expect(offered('diagnose', 'my')).toEqual(['my case.yaml']);
    expect(offered('diagnose', '--format', 'json', 'my case.yaml', 'bi')).toEqual(['bike.yaml']);
    expect(offered('diagnose', '--bike', 'b')).toEqual(['bike.yaml']);
    expect(offered('--rules', '')).toEqual(['rules']);
  });
  it('knows the command behind options with values', () => {
    expect(offered('--color', 'never', '--rules', 'rules', 'rules', 'che')).toEqual(['check']);
    expect(offered('explain', '--bike', 'bike.yaml', 'my case.yaml', 'b')).toEqual([]);
  });
  it('does not take a value for a command', () => {
    expect(offered('--rules', 'rules', 'che')).toEqual([]);
  });
});

const has = (shell: string): boolean => spawnSync(shell, ['--version']).status === 0;

describe('completion in the other shells', () => {
  it.skipIf(!has('zsh'))('is a script zsh can read', () => {
    const { status, stderr } = spawnSync('zsh', ['-n', 'script.zsh'], { cwd: dir, encoding: 'utf8' });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  });
  it.skipIf(!has('fish'))('offers in fish what it offers in bash', () => {
    const fish = (line: string): string[] => {
      const out = execFileSync('fish', ['--no-config', '-c', `source script.fish; complete -C '${line}'`], {
        cwd: dir,
        encoding: 'utf8',
        env: { ...process.env, HOME: dir },
      });
      return out
        .split('\n')
        .filter(Boolean)
        .map((one) => one.split('\t')[0]!);
    };
    expect(fish('earshot dia')).toEqual(['diagnose']);
    expect(fish('earshot rules sh')).toEqual(['show']);
    expect(fish('earshot diagnose --format m')).toEqual(['markdown']);
    expect(fish('earshot diagnose my')).toEqual(['my case.yaml']);
    expect(fish('earshot diagnose --con')).toEqual([]);
    expect(fish('earshot explain --con')).toEqual(['--conflict']);
  });
  it('refuses a shell it does not know', async () => {
    const { code, err } = await earshot(['completion', 'tea']);
    expect(code).toBe(2);
    expect(err).toContain('bash, zsh, fish');
  });
});
