/** The program's version, from the package file it was installed with. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './root.ts';

export const VERSION = (JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string })
  .version;
