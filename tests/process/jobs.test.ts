/** Several threads at one long input: the same bytes, in the same order, on both streams. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { threads } from '../../src/commands/tell-threads.ts';

const ROOT = join(import.meta.dirname, '../..');
const samples = readFileSync(join(ROOT, 'examples/batch.ndjson'), 'utf8').trim().split('\n');
// Long enough for many batches, with lines that are no case, and one that is only a warning.
const input = Array.from({ length: 3_000 }, (_, i) => {
  if (i % 701 === 700) return 'not a case';
  if (i % 997 === 5) return '{"id":"odd","answers":{"no-such-question":"x"}}';
  return samples[i % samples.length]!.replace(/"id":"[^"]*"/, `"id":"n-${i}"`);
}).join('\n');

const diagnose = (...flags: string[]) => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(ROOT, 'bin/earshot.js'), 'diagnose', '-', ...flags],
    { input, encoding: 'utf8', maxBuffer: 1e9, env: { ...process.env, EARSHOT_HOME: '/nonexistent' } },
  );
  return { status, stdout, stderr };
};

it.each([
  ['ndjson', []],
  ['csv', ['--next']],
  ['text', []],
])(
  'tells %s the same with one, two and three threads',
  (format, more) => {
    const one = diagnose('--format', format, ...more);
    expect(one.status).toBe(1);
    expect(one.stderr.split('\n').length).toBeGreaterThan(4);
    for (const jobs of ['2', '3']) expect(diagnose('--format', format, ...more, '--jobs', jobs)).toEqual(one);
  },
  60_000,
);

it('refuses a number of threads that is none', () => {
  const { status, stderr } = diagnose('--jobs', '0');
  expect({ status, stderr: stderr.split('\n')[0] }).toEqual({
    status: 2,
    stderr: expect.stringContaining('Write a whole number from 1 up.') as string,
  });
});

it('passes on why a thread ended, also to what is asked of it later', async () => {
  const hands = await threads(1, {
    options: { format: 'ndjson', full: false, next: false, explain: false },
    rules: ['no-such-pack'],
    bike: undefined,
    bikes: [],
    log: true,
    cwd: ROOT,
    env: {},
  });
  const batch = { file: 'f', folder: ROOT, first: 1, lines: ['{}'] };
  await expect(hands.tell(batch)).rejects.toThrow('no such folder of rules');
  await expect(hands.tell(batch)).rejects.toThrow('no such folder of rules');
  await hands.close();
});
