/** What a killed writer left beside what is kept goes once the output is out, and nothing is looked at before. */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readKept, sweepShelf, type Shelf } from '../../src/workspace/kept.ts';
import { keptHome } from '../support/kept-home.ts';

const home = keptHome();
const SHELF: Shelf = { name: 'results', most: 1 };
/** no process has such a number */
const LEFT = '.a.json.4194305-aaaaaaaaaaaa.aside';

it.each([
  ['that is looked over', sweepShelf],
  ['on which what is wanted is not found', (io, shelf) => void readKept(io, shelf, 'a')],
] satisfies [string, typeof sweepShelf][])('goes from a shelf %s, after the output', async (_, open) => {
  const left = join(home.folder('results'), LEFT);
  await home.start((io) => {
    open(io, SHELF);
    mkdirSync(home.folder('results'), { recursive: true, mode: 0o700 });
    writeFileSync(left, 'half');
    expect(existsSync(left)).toBe(true);
  });
  expect(existsSync(left)).toBe(false);
  await home.start((io) => open(io, SHELF));
});
