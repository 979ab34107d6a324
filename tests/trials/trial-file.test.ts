import { expect, test } from 'vitest';
import { readTrial, type ReadTrial } from '../../src/trials/trial-file.ts';
import { rode } from './invented.ts';

const plain = (): Record<string, unknown> => JSON.parse(JSON.stringify(rode('R4 R4 +6 R4')));

const placesOf = ({ problems }: ReadTrial): string[] =>
  problems.map(({ path, key }) => [...path, ...(key === undefined ? [] : [key])].join('.'));

test('what is written is what is read', () => {
  const trial = rode('R4 R4 +6 R4');
  expect(readTrial(plain())).toEqual({ value: trial, problems: [] });
});

test('a file edited by hand: every mistake with its place', () => {
  const raw = plain() as { ridden: unknown[]; extra?: number };
  raw.extra = 1;
  raw.ridden[1] = { arm: 'sideways', ratings: {} };
  const read = readTrial(raw);
  expect(placesOf(read)).toEqual(['ridden.1.arm', 'extra']);
  expect(read.problems[1]!.message).toBe('A trial: extra is not known here.');
});

test('runs that do not fit the trial are found too', () => {
  const raw = plain() as { ridden: unknown[] };
  raw.ridden[2] = { arm: 'sham', ratings: { grip: 9 } };
  const read = readTrial(raw);
  expect(placesOf(read)).toEqual(['ridden.2.arm', 'ridden.2.ratings.grip']);
});

test('a short trial of two steps is none', () => {
  const raw = { ...plain(), short: true } as { arms: unknown[]; short: boolean };
  expect(readTrial(raw).problems).toEqual([]);
  raw.arms.push({ name: 'minus', set: 2 });
  expect(placesOf(readTrial(raw))).toEqual(['short']);
});

test('another format version is refused with a remedy', () => {
  const read = readTrial({ ...plain(), trial: 2 });
  expect(placesOf(read)).toEqual(['trial']);
  expect(read.problems[0]!.message).toBe('This trial has format 2; this program reads format 1.');
});
