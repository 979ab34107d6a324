/** What the build left beside the compiled built-in rules: their version, and enough to see that no rule was edited since. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './root.ts';
import { basePackFolder, digestOf, findPack } from './rule-files.ts';
import { VERSION } from './version.ts';

export interface BuiltInStamp {
  readonly digest: string;
  readonly packName: string;
  readonly packVersion: string;
  readonly files: readonly (readonly [path: string, size: number, mtimeMs: number])[];
}

export const BUILT = join(ROOT, 'dist', 'rules');

/** @throws when the project was not built */
export function readStamp(): BuiltInStamp {
  return JSON.parse(readFileSync(join(BUILT, 'base.stamp.json'), 'utf8')) as BuiltInStamp;
}

/** The digest of the built-in rules as they stand now; the files are read only when one looks edited. */
export function digestNow(stamp: BuiltInStamp): string {
  const folder = basePackFolder();
  const untouched = stamp.files.every(([file, size, mtime]) => {
    const now = statSync(join(folder, file));
    return now.size === size && now.mtimeMs === mtime;
  });
  // A file added since is seen in its folder's own time, which is on the list too.
  return untouched ? stamp.digest : digestOf([findPack(folder, folder)], VERSION);
}

/** What `earshot --version` prints: the program, and which rules it goes by. */
export function versionText(): string {
  const program = `earshot ${VERSION}`;
  try {
    const stamp = readStamp();
    const digest = digestNow(stamp);
    const edited = digest === stamp.digest ? '' : ', edited since the program was built';
    return `${program}\nrules ${stamp.packName} ${stamp.packVersion}, digest ${digest.slice(0, 12)}${edited}`;
  } catch {
    return `${program}\nrules not compiled yet`;
  }
}
