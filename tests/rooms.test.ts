/** Rooms of the source: which may know of which, and that each is small enough to be looked over. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { describe, expect, it, test } from 'vitest';

const SRC = new URL('../src', import.meta.url).pathname;

/** From the ground up: a room knows those above it in this list, and none below. */
const ROOMS = [
  'form',
  'host',
  'bike',
  'rulebase',
  'physics',
  'words',
  'diagnosis',
  'trials',
  'advice',
  'disk',
  'logbook',
  'casework',
  'interview',
  'evaluation',
  'report',
  'console',
  'workspace',
  'cli',
  'start',
];
const MOST_FILES = 25;

const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'));
const roomOf = (file: string): string => file.split(sep)[0]!;
const inRooms = files.filter((file) => file.includes(sep));

describe('the rooms of the source', () => {
  it('are all in the list', () => {
    expect([...new Set(inRooms.map(roomOf))].filter((room) => !ROOMS.includes(room))).toEqual([]);
  });
  it('know only of rooms below them', () => {
    const wrong = inRooms.flatMap((file) => {
      const code = readFileSync(join(SRC, file), 'utf8');
      return [...code.matchAll(/(?:from|import\()\s*'(\.[^']+)'/g)]
        .map(([, spec]) => relative(SRC, join(SRC, dirname(file), spec!)))
        .filter((to) => ROOMS.indexOf(roomOf(to)) > ROOMS.indexOf(roomOf(file)))
        .map((to) => `${file} → ${to}`);
    });
    expect(wrong).toEqual([]);
  });
  it('have a folder of tests each', () => {
    const tested = readdirSync(import.meta.dirname, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.test.ts'))
      .map(roomOf);
    expect(ROOMS.filter((room) => !tested.includes(room))).toEqual([]);
  });
  it('hold few files each', () => {
    const count = new Map<string, number>();
    for (const file of files) count.set(dirname(file), (count.get(dirname(file)) ?? 0) + 1);
    const full = [...count].filter(([, many]) => many > MOST_FILES);
    expect(full).toEqual([]);
  });
});

test('each file of checks stands beside the rules it is about', () => {
  const base = new URL('../rules/base', import.meta.url).pathname;
  const all = readdirSync(base, { recursive: true, encoding: 'utf8' });
  const alone = all.filter(
    (file) => file.endsWith('.checks.yaml') && !all.includes(file.replace('.checks.yaml', '.yaml')),
  );
  expect(alone).toEqual([]);
});
