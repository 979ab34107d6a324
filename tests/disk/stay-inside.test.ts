import { mkdirSync, symlinkSync } from 'node:fs';
import { dirname, join, parse } from 'node:path';
import { expect, test } from 'vitest';
import { stayInside } from '../../src/disk/stay-inside.ts';
import { tempFolder } from '../logbook/places.ts';

const root = tempFolder();
const outer = join(root, 'outer');
const inside = join(outer, 'inside');
mkdirSync(inside, { recursive: true });

test('a folder of its own is inside, one that is not there yet leads nowhere', async () => {
  await expect(stayInside(outer, inside)).resolves.toBeUndefined();
  await expect(stayInside(outer, join(outer, 'later'))).resolves.toBeUndefined();
});

test('everything is inside the top of the disk', async () => {
  await expect(stayInside(parse(root).root, outer)).resolves.toBeUndefined();
});

test('a name that only begins with two dots is no way out', async () => {
  const dotted = join(outer, '..dotted');
  mkdirSync(dotted);
  await expect(stayInside(outer, dotted)).resolves.toBeUndefined();
});

test.each([
  ['out of it', dirname(root)],
  ['to the folder above', root],
  ['beside it', join(root, 'outer-too')],
  ['to itself, where two locks would be one', outer],
])('a link that leads %s is refused', async (name, to) => {
  mkdirSync(to, { recursive: true });
  const link = join(outer, `link ${name}`);
  symlinkSync(to, link);
  await expect(stayInside(outer, link)).rejects.toMatchObject({ code: 'outside', file: link });
});
