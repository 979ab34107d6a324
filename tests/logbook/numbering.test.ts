import { appendFileSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/logbook/entry.ts';
import { renumbered } from '../../src/logbook/numbering.ts';
import { open, tempFolder } from './places.ts';

const note = (entry: number, more: Partial<Entry> = {}): Entry => ({
  entry,
  at: '2026-05-01T10:00:00Z',
  kind: 'note',
  reason: `note ${entry}`,
  ...more,
});

describe('the numbers of entries', () => {
  it('stay where they go upward, also with gaps', () => {
    const entries = [note(1), note(4), note(5)];
    expect(renumbered(entries)).toEqual({ entries, moved: [] });
  });
  it('follow the order of the file where two are alike or one goes back', () => {
    const { entries, moved } = renumbered([note(1), note(3), note(3), note(2), note(9)]);
    expect(entries.map(({ entry }) => entry)).toEqual([1, 3, 4, 5, 9]);
    expect(moved).toEqual([
      { index: 2, was: 3, is: 4 },
      { index: 3, was: 2, is: 5 },
    ]);
  });
  it('take what is undone along: the last that bore the number', () => {
    const { entries } = renumbered([note(1), note(2), note(2), note(3, { undoes: 2 })]);
    expect(entries.at(-1)).toMatchObject({ entry: 4, undoes: 3 });
  });
});

const root = tempFolder();
const doc = (entry: number, lines: readonly string[]): string =>
  `---\nentry: ${entry}\nat: 2026-05-01T10:0${entry}:00Z\n${lines.join('\n')}\n...\n`;
const turned = (entry: number, to: number): string =>
  doc(entry, [
    'kind: change # by two at once',
    'changes:',
    `  - { setting: front.rebound.low, to: ${to}, unit: clicks, from: 16 }`,
  ]);

describe('a log with two entries of one number', () => {
  it('is read, told, and put right by the next write, with nothing of it lost', async () => {
    const log = await open(join(root, 'one'));
    await log.append({ kind: 'note', reason: 'first' });
    const file = join(log.folder, 'history.yaml');
    appendFileSync(file, turned(2, 17) + turned(2, 18));
    const before = readFileSync(file, 'utf8');
    const read = await log.readHistory();
    expect(read.entries.map(({ entry }) => entry)).toEqual([1, 2, 3]);
    expect(read.misnumbered).toContain('entry 2 is entry 3 here');
    expect((await log.standings())['front.rebound.low']).toMatchObject({ value: 18, entry: 3 });
    expect(readFileSync(file, 'utf8')).toBe(before);
    const { entry, warnings } = await log.undo();
    expect(entry).toMatchObject({ entry: 4, undoes: 3, changes: [{ to: 16 }] });
    expect(warnings.join()).toContain('numbered anew');
    const after = readFileSync(file, 'utf8');
    expect(
      after.startsWith(
        before.slice(0, -turned(2, 18).length) + turned(2, 18).replace('entry: 2', 'entry: 3'),
      ),
    ).toBe(true);
    expect(readFileSync(join(log.folder, 'history.before-numbering.yaml'), 'utf8')).toBe(before);
    const again = await log.readHistory();
    expect(again.misnumbered).toBeUndefined();
    expect(again.entries.map(({ undoes }) => undoes)).toEqual([undefined, undefined, undefined, 3]);
  });
  it('is written anew where its form is an odd one, the file before kept, also a second time', async () => {
    const log = await open(join(root, 'two'));
    await log.append({ kind: 'note', reason: 'first' });
    const file = join(log.folder, 'history.yaml');
    for (const time of [1, 2]) {
      appendFileSync(
        file,
        `---\n{ entry: 1, at: 2026-05-01T10:09:00Z, kind: note, reason: odd ${time} }\n...\n`,
      );
      await log.append({ kind: 'note', reason: `after ${time}` });
    }
    const { entries, misnumbered } = await log.readHistory();
    expect(misnumbered).toBeUndefined();
    expect(entries.map(({ reason }) => reason)).toEqual(['first', 'odd 1', 'after 1', 'odd 2', 'after 2']);
    expect(readdirSync(log.folder).filter((name) => name.includes('before-numbering'))).toHaveLength(2);
  });
  it('keeps an unfinished entry behind it', async () => {
    const log = await open(join(root, 'three'));
    await log.append({ kind: 'note', reason: 'first' });
    const file = join(log.folder, 'history.yaml');
    writeFileSync(file, `${readFileSync(file, 'utf8')}${turned(1, 17)}---\nentry: 9\nkind: no`);
    await log.append({ kind: 'note', reason: 'last' });
    expect((await log.readHistory()).entries.map(({ entry }) => entry)).toEqual([1, 2, 3]);
    expect(readFileSync(join(log.folder, 'history.unfinished.yaml'), 'utf8')).toContain('entry: 9');
  });
});
