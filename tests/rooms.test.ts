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
  it('load no dear library at the start of the commands that are used most', () => {
    const DEAR = ['zod', 'yaml', 'inquirer', '@inquirer/core'];
    const imported = (file: string): string[] =>
      [
        ...readFileSync(join(SRC, file), 'utf8').matchAll(
          /^(?:import|export)\s(?!type\b)(?:[^;]*?\sfrom\s)?'([^']+)';/gm,
        ),
      ].flatMap(([line, spec]) => {
        // Of types nothing is left.
        const names = /\{([^}]*)\}/
          .exec(line)?.[1]!
          .split(',')
          .filter((name) => name.trim() !== '');
        if (names !== undefined && names.every((name) => name.trim().startsWith('type '))) return [];
        return [spec!.startsWith('.') ? join(dirname(file), spec!) : spec!];
      });
    for (const command of ['diagnose', 'explain', 'report', 'predict']) {
      const first = `cli/commands/${command}.ts`;
      const by = new Map<string, string>([[first, 'main.ts']]);
      // A map is walked on into what is added to it.
      for (const [file] of by)
        if (file.endsWith('.ts')) for (const to of imported(file)) if (!by.has(to)) by.set(to, file);
      expect(by.size).toBeGreaterThan(50);
      expect(DEAR.flatMap((name) => (by.has(name) ? [`${command}: ${by.get(name)} → ${name}`] : []))).toEqual(
        [],
      );
    }
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
