/** The folder this program is installed in, wherever the built files lie inside it. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

function find(): string {
  let here = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(here, 'package.json'))) {
    const up = dirname(here);
    if (up === here) throw new Error('The program cannot find its own package.json.');
    here = up;
  }
  return here;
}

export const ROOT = find();
