/** What the build left beside the compiled built-in rules: their version, and enough to see that no rule was edited since. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, VERSION } from '../../host/root.ts';
import { basePackFolder, digestOf, findPack, isChecks } from './rule-files.ts';

export interface BuiltInStamp {
  readonly digest: string;
  readonly packName: string;
  readonly packVersion: string;
  readonly files: readonly (readonly [path: string, size: number, mtimeMs: number])[];
  readonly folders: readonly (readonly [path: string, mtimeMs: number])[];
}

export const BUILT = join(ROOT, 'dist', 'rules');
export const STAMP = join(BUILT, 'base.stamp.json');
/** The compiled rules, in the two pieces of `compiled-text.ts`. */
export const BUILT_RULES = join(BUILT, 'base.json');
export const BUILT_RARE = join(BUILT, 'base.rare.json');
export const BUILT_PHYSICS = join(BUILT, 'physics.json');

/**
 * Tells one state of the program from another: what an older one kept is not believed. The build sets it last of all, so
 * that nothing a half-built program works out bears the mark of the whole one.
 * @returns undefined where the program was not built
 */
export function builtAt(): number | undefined {
  return statSync(BUILT_PHYSICS, { throwIfNoEntry: false })?.mtimeMs;
}

/** @throws when the project was not built */
export function readStamp(): BuiltInStamp {
  return JSON.parse(readFileSync(STAMP, 'utf8')) as BuiltInStamp;
}

/**
 * The digest of the built-in rules as they stand now; they are only read when one looks edited. Unpacked from a package,
 * all files have one date, the stamp too, and none has the date it had when it was built.
 */
export function digestNow(stamp: BuiltInStamp): string {
  const folder = basePackFolder();
  let unpacked: number | undefined;
  const untouched = stamp.files.every(([file, size, mtime]) => {
    // Put together by hand: to join so many paths, the engine would compile what joins them.
    const now = statSync(`${folder}/${file}`);
    return (
      now.size === size && (now.mtimeMs === mtime || now.mtimeMs === (unpacked ??= statSync(STAMP).mtimeMs))
    );
  });
  return untouched && holdsTheSame(stamp, folder)
    ? stamp.digest
    : digestOf([findPack(folder, folder)], VERSION);
}

/** A folder's own date tells that no file came or went; where it is another, its files are listed. */
function holdsTheSame(stamp: BuiltInStamp, folder: string): boolean {
  if (stamp.folders.every(([path, mtime]) => statSync(`${folder}/${path}`).mtimeMs === mtime)) return true;
  const rules = findPack(folder, folder).files.filter((file) => !isChecks(file));
  return rules.length === stamp.files.length && stamp.files.every(([file], i) => file === rules[i]);
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
