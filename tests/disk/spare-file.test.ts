/** What is safe to lose is put in its place whole, by whoever comes first, and what a killed writer left goes. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { createSpare, putSpare, sweepSpare } from '../../src/disk/spare-file.ts';
import { tempFolder } from '../logbook/places.ts';

const bytes = (text: string): Buffer => Buffer.from(text);

it('is replaced in one step, for nobody else to read, and nothing stays beside it', () => {
  const folder = tempFolder();
  const path = join(folder, 'a.json');
  putSpare(path, bytes('one'));
  putSpare(path, bytes('two'));
  expect(readFileSync(path, 'utf8')).toBe('two');
  expect(statSync(path).mode & 0o077).toBe(0);
  expect(readdirSync(folder)).toEqual(['a.json']);
});

it('is created once: the first has the name', () => {
  const folder = tempFolder();
  const path = join(folder, 'key');
  createSpare(path, bytes('one'));
  createSpare(path, bytes('two'));
  expect(readFileSync(path, 'utf8')).toBe('one');
  expect(readdirSync(folder)).toEqual(['key']);
});

it('leaves nothing behind where it cannot be put in its place', () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'a.json'));
  expect(() => putSpare(join(folder, 'a.json'), bytes('one'))).toThrow();
  expect(readdirSync(folder)).toEqual(['a.json']);
});

it('loses what a killed writer left at once, what a living one writes never, and whatever is an hour old', () => {
  const folder = tempFolder();
  const dead = spawnSync(process.execPath, ['-e', '0']).pid;
  const aside = (who: number, part: string): string => `.a.json.${who}-${part.repeat(12)}.aside`;
  const names = [aside(dead, 'a'), aside(process.pid, 'b'), aside(process.pid, 'c'), 'kept.json'];
  for (const name of names) writeFileSync(join(folder, name), 'x');
  const before = new Date(Date.now() - 2 * 3_600_000);
  utimesSync(join(folder, names[2]!), before, before);
  utimesSync(join(folder, 'kept.json'), before, before);
  sweepSpare(folder);
  expect(readdirSync(folder).toSorted()).toEqual([names[1], 'kept.json'].toSorted());
  sweepSpare(join(folder, 'nowhere'));
});
