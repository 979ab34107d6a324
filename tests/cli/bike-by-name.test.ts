/** What `--bike NAME` takes: a file, a bike with a log, or a file without its ending; and that it is told where both are there. */
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, it } from 'vitest';
import { parse } from 'yaml';
import { earshot as run, shareKept, type Ran } from '../support/io.ts';

const shelf = mkdtempSync(join(tmpdir(), 'earshot-bike-by-name-'));
afterAll(() => rmSync(shelf, { recursive: true, force: true }));
let cwd = '';
beforeEach(() => {
  cwd = mkdtempSync(join(shelf, 'case-'));
  shareKept(join(cwd, 'home'));
  put('oak.yaml');
});

/** The bike birch, under any name. */
function put(name: string): void {
  copyFileSync(new URL('../../examples/bikes/all-knobs.yaml', import.meta.url), join(cwd, name));
}
const earshot = (...argv: string[]): Promise<Ran> =>
  run(argv, { cwd, env: { EARSHOT_HOME: join(cwd, 'home') } });

it.each(['.yaml', '.yml', '.json'])('takes the file %s of the folder by its name alone', async (ending) => {
  const written = readFileSync(join(cwd, 'oak.yaml'), 'utf8');
  rmSync(join(cwd, 'oak.yaml'));
  const asIs = ending === '.json' ? JSON.stringify(parse(written)) : written;
  writeFileSync(join(cwd, `oak${ending}`), asIs);
  for (const line of [['next'], ['bike', 'show'], ['log', 'note', 'new grips']])
    expect(await earshot(...line, '--bike', 'oak')).toMatchObject({ code: 0, err: '' });
});

it('tells of a file beside the bike of that name which of the two it took', async () => {
  await earshot('log', 'note', 'new grips', '--bike', 'oak.yaml');
  // The one of the log, also where the other lies in the folder.
  expect((await earshot('next', '--bike', 'birch')).err).toBe('');
  put('birch.yaml');
  const log = await earshot('next', '--bike', 'birch');
  expect(log.err).toBe(
    `--bike birch is the bike of that name, ${join(cwd, 'oak.yaml')}. The file here is another: --bike birch.yaml\n`,
  );
  put('birch');
  const file = await earshot('next', '--bike', 'birch');
  expect(file.err).toContain(
    '--bike birch is the file birch here. The bike of that name is another: --bike ',
  );
});

it('looks past a folder of that name', async () => {
  mkdirSync(join(cwd, 'oak'));
  expect((await earshot('next', '--bike', 'oak')).code).toBe(0);
  mkdirSync(join(cwd, 'elm'));
  expect(await earshot('next', '--bike', 'elm')).toMatchObject({
    code: 2,
    err: 'elm: this is a folder. Name a file.\n',
  });
});
