/** Several threads at one long input: the same bytes, in the same order, on both streams. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { threads } from '../../src/cli/batch/worker-pool.ts';

const ROOT = join(import.meta.dirname, '../..');
const samples = readFileSync(join(ROOT, 'examples/batch.ndjson'), 'utf8').trim().split('\n');
/** Letters of a line, most of them blanks: a batch is what one read of a pipe brings, 64 KiB, so some 15 cases. */
const WIDTH = 4_000;
/** With lines that are no case, and one that is only a warning. */
const input = (records: number): string =>
  Array.from({ length: records }, (_, i) => {
    if (i % 13 === 12) return 'not a case'.padStart(WIDTH);
    if (i % 31 === 5) return '{"id":"odd","answers":{"no-such-question":"x"}}'.padEnd(WIDTH);
    return samples[i % samples.length]!.replace(/"id":"[^"]*"/, `"id":"n-${i}"`).padEnd(WIDTH);
  }).join('\n');

const diagnose = (records: number, ...flags: string[]) => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(ROOT, 'bin/earshot.js'), 'diagnose', '-', ...flags],
    {
      input: input(records),
      encoding: 'utf8',
      maxBuffer: 1e9,
      env: { ...process.env, EARSHOT_HOME: '/nonexistent' },
    },
  );
  return { status, stdout, stderr };
};

it.each([
  ['ndjson', 90, ['3'], []],
  ['csv', 60, ['2'], ['--next']],
  ['text', 60, ['2'], []],
])('tells %s of %i records the same with one thread and with %s', (format, records, jobs, more) => {
  const one = diagnose(records, '--format', format, ...more);
  expect(one.status).toBe(1);
  expect(one.stderr.split('\n').length).toBeGreaterThan(4);
  for (const n of jobs) expect(diagnose(records, '--format', format, ...more, '--jobs', n)).toEqual(one);
});

it('refuses a number of threads that is none', () => {
  const { status, stderr } = diagnose(1, '--jobs', '0');
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
