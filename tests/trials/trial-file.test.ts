import { expect, test } from 'vitest';
import { readTrial } from '../../src/trials/trial-file.ts';
import { rode } from './invented.ts';

const plain = (): Record<string, unknown> => JSON.parse(JSON.stringify(rode('R4 R4 +6 R4')));

test('what is written is what is read', () => {
  const trial = rode('R4 R4 +6 R4');
  expect(readTrial(plain())).toEqual({ ok: true, value: trial });
});

test('a file edited by hand: every mistake with its place', () => {
  const raw = plain() as { ridden: unknown[]; extra?: number };
  raw.extra = 1;
  raw.ridden[1] = { arm: 'sideways', ratings: {} };
  const read = readTrial(raw);
  expect(read.ok ? [] : read.problems.map((problem) => `${problem.code} ${problem.at}`)).toEqual([
    'shape ridden.1.arm',
    'shape trial file',
  ]);
});

test('runs that do not fit the trial are found too', () => {
  const raw = plain() as { ridden: unknown[] };
  raw.ridden[2] = { arm: 'sham', ratings: { grip: 9 } };
  const read = readTrial(raw);
  expect(read.ok ? [] : read.problems.map((problem) => `${problem.code} ${problem.at}`)).toEqual([
    'unknown-arm ridden.2.arm',
    'rating ridden.2.ratings.grip',
  ]);
});

test('another format version is refused with a remedy', () => {
  const read = readTrial({ ...plain(), trial: 2 });
  expect(read.ok ? undefined : read.problems[0]).toMatchObject({ code: 'format', at: 'trial' });
});
