/** Files and folders on the command line → case files. */
import { readdirSync, statSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { Refusal } from './io.ts';

const CASE = /\.(ya?ml|json|ndjson|jsonl)$/;
/** An interview that was broken off. */
const OPEN = /\.open\.yaml$/;

/**
 * A file stays as it is. Of a folder: the cases of every log below it, or, where there is no log, the case files in it.
 * @throws Refusal for a folder without a case
 */
export function caseFiles(paths: readonly string[], cwd: string): string[] {
  return paths.flatMap((path) => {
    const full = resolve(cwd, path);
    if (path === '-' || !statSync(full, { throwIfNoEntry: false })?.isDirectory()) return [path];
    const logs = [...(basename(full) === 'cases' ? [path] : []), ...drawers(path, cwd)];
    const files = (logs.length > 0 ? logs : [path]).flatMap((folder) =>
      readdirSync(resolve(cwd, folder), { withFileTypes: true })
        .filter((f) => f.isFile() && CASE.test(f.name) && !OPEN.test(f.name) && !f.name.startsWith('.'))
        .map((f) => join(folder, f.name))
        .sort(),
    );
    if (files.length === 0)
      throw new Refusal(`${path}: there is no case in this folder. Name case files, or the folder of a log.`);
    return files;
  });
}

/** Every folder named `cases` below a folder. */
function drawers(folder: string, cwd: string): string[] {
  return readdirSync(resolve(cwd, folder), { withFileTypes: true })
    .filter((f) => f.isDirectory() && !f.name.startsWith('.'))
    .map((f) => join(folder, f.name))
    .sort()
    .flatMap((below) => (basename(below) === 'cases' ? [below] : drawers(below, cwd)));
}
