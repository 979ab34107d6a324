/** The folder this program is installed in, wherever the built files lie inside it, and its version. */
import { existsSync, readFileSync } from 'node:fs';
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

/** The program's version, from the package file it was installed with. */
export const VERSION = (JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string })
  .version;
