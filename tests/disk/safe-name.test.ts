import { existsSync, readdirSync, symlinkSync, mkdirSync, mkdtempSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { safeName } from '../../src/disk/safe-name.ts';
import { open, tempFolder } from '../logbook/places.ts';
import { anyText } from '../support/any-text.ts';

const root = tempFolder();

test('plain ids are their own names', () => {
  for (const id of ['park-bike', 'pit-0412-3', 'a', 't_1']) expect(safeName(id, 'case')).toBe(id);
});

test('whatever an id holds, its name is plain, short, and no device', () => {
  const nasty = fc.oneof(
    anyText({ minLength: 1, maxLength: 400 }),
    fc.constantFrom(
      '..',
      '../..',
      '/etc/passwd',
      'C:\\x',
      'con',
      'NUL',
      'com1',
      'aux.yaml',
      '.hidden',
      'a.open',
      '-rf',
      'a\0b',
      'x'.repeat(5000),
      '\u202Egnp',
      'Bike',
      'bike ',
      '🚵',
      '%2e%2e',
    ),
  );
  fc.assert(
    fc.property(nasty, (id) => {
      fc.pre(id.trim() !== '');
      const name = safeName(id, 'case');
      expect(name).toMatch(/^[a-z0-9][a-z0-9_-]*$/);
      expect(name.length).toBeLessThanOrEqual(64);
      expect(name).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)$/);
    }),
  );
});

test('different ids have different names, also where a file system takes them for one', () => {
  const ids = [
    'bike',
    'Bike',
    'BIKE',
    'bike ',
    'bike.',
    'bi/ke',
    'bi ke',
    'bïke',
    'con',
    'b'.repeat(64),
    'b'.repeat(65),
    'b'.repeat(66),
  ];
  expect(new Set(ids.map((id) => safeName(id, 'bike').toLowerCase())).size).toBe(ids.length);
});

test('accents composed or not are the same id', () => {
  expect(safeName('v\u00E9lo', 'bike')).toBe(safeName('ve\u0301lo', 'bike'));
});

test('an empty id is refused with a remedy', () => {
  expect(() => safeName(' ', 'bike')).toThrow('The bike has no id.');
});

test('nothing is written outside the home, whatever the ids', async () => {
  const outer = mkdtempSync(join(root, 'outer-'));
  const home = join(outer, 'home');
  const log = await open(home, '../../escaped');
  await log.saveCase('../../../case', { case: 1 });
  await log.saveTrial('/tmp/../trial', () => ({ trial: 1 }));
  await log.append({ kind: 'note', reason: 'x', case: '../../c' });
  expect(readdirSync(outer)).toEqual(['home']);
  expect(readdirSync(home)).toEqual(['bikes']);
  expect(readdirSync(join(home, 'bikes'))).toHaveLength(1);
  expect((await log.loadCases()).papers[0]!.id).toBe('../../../case');
});

test('a link in the place of a folder or a file is not followed out', async () => {
  const outer = mkdtempSync(join(root, 'outer-'));
  const log = await open(join(outer, 'home'));
  await log.append({ kind: 'note', reason: 'x' });
  mkdirSync(join(outer, 'elsewhere'));
  symlinkSync(join(outer, 'elsewhere'), join(log.folder, 'trials'));
  await expect(log.saveTrial('t', () => ({}))).rejects.toMatchObject({ code: 'outside' });
  const second = await open(join(outer, 'home'), 'second');
  await second.saveCase('c', { case: 1 });
  symlinkSync(join(outer, 'target'), join(second.folder, 'history.yaml'));
  await expect(second.append({ kind: 'note', reason: 'x' })).rejects.toMatchObject({ code: 'outside' });
  expect(existsSync(join(outer, 'target'))).toBe(false);
  expect(readdirSync(join(outer, 'elsewhere'))).toEqual([]);
});
