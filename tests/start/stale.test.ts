import { existsSync, mkdirSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { removeCaches, removeStale } from '../../src/start/stale.ts';

it('takes away what was built of sources that are gone, and nothing else', () => {
  const here = mkdtempSync(join(tmpdir(), 'stale-'));
  const put = (...files: string[]): void => {
    for (const file of files) {
      mkdirSync(dirname(join(here, file)), { recursive: true });
      writeFileSync(join(here, file), '');
    }
  };
  put('src/main.ts', 'src/bike/sheet.ts');
  const kept = [
    'main.js',
    'main.d.ts',
    'bike/sheet.js',
    'program.cjs',
    'program.cjs.cache',
    'rules/base.json',
  ];
  const gone = ['bike/fields.js', 'bike/fields.d.ts', 'desk/open.js', 'desk/deep/er.js'];
  put(...[...kept, ...gone].map((file) => `dist/${file}`));
  removeStale(join(here, 'dist'), join(here, 'src'));
  expect(kept.filter((file) => !existsSync(join(here, 'dist', file)))).toEqual([]);
  expect([...gone, 'desk'].filter((file) => existsSync(join(here, 'dist', file)))).toEqual([]);
});

it('takes away the compiled forms of a program, also those of lines that are no longer compiled', () => {
  const here = mkdtempSync(join(tmpdir(), 'stale-'));
  const caches = ['program.cjs.cache', 'program.cjs.diagnose.cache', 'program.cjs.bygone.cache'];
  const kept = ['main.js', 'other.cache', 'program.cjs'];
  for (const file of [...caches, ...kept]) writeFileSync(join(here, file), '');
  removeCaches(here, 'program.cjs');
  expect(readdirSync(here).toSorted()).toEqual(kept);
});
