import { readdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, it } from 'vitest';
import { openAside, sweepAside, sweepBeside } from '../../src/disk/aside.ts';
import { tempFolder } from '../logbook/places.ts';

it('what a living writer has aside is not swept away; what a dead one left is', async () => {
  const folder = tempFolder();
  const path = join(folder, 'a.yaml');
  const left = `.a.yaml.${'0'.repeat(16)}.aside`;
  const { file, name } = await openAside(path, 0o600);
  writeFileSync(join(folder, left), 'left');
  await sweepAside(folder);
  expect(readdirSync(folder)).toEqual([basename(name)]);
  writeFileSync(join(folder, left), 'left');
  await sweepBeside(path);
  expect(readdirSync(folder)).toEqual([basename(name)]);
  await file.close();
  await sweepBeside(path);
  expect(readdirSync(folder)).toEqual([]);
});
