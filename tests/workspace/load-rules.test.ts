import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { earshot } from '../support/io.ts';

const shelf = mkdtempSync(join(tmpdir(), 'earshot-load-rules-'));
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

it('does without the cache of further packs where a file is in its way', async () => {
  const file = join(shelf, 'file');
  writeFileSync(file, '');
  const argv = ['--rules', 'examples/packs/night-ride', 'rules', 'show', 'causes'];
  const { code, err } = await earshot(argv, { env: { EARSHOT_HOME: file } });
  expect({ code, err }).toEqual({ code: 0, err: '' });
});
