import { existsSync, mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { removeStale } from '../../src/start/stale.ts';

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
