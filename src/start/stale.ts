/** What an earlier build left in `dist/` of sources that are gone: renamed files, and folders that nothing is in any more. */
import { existsSync, readdirSync, rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';

/** Takes it away rather than all of `dist/` before the build, so that a program that is running meanwhile stays whole. */
export function removeStale(built: string, sources: string): void {
  for (const entry of readdirSync(built, { withFileTypes: true })) {
    const path = join(built, entry.name);
    if (entry.isDirectory()) {
      removeStale(path, join(sources, entry.name));
      if (readdirSync(path).length === 0) rmdirSync(path);
      continue;
    }
    const source = /^(.+?)\.(?:js|d\.ts)$/.exec(entry.name);
    if (source !== null && !existsSync(join(sources, `${source[1]}.ts`)) && !isDeclared(sources, source[1]!))
      rmSync(path);
  }
}

/** Takes away every compiled form of a program, whatever lines it was for. @param program in that folder */
export function removeCaches(folder: string, program: string): void {
  for (const name of readdirSync(folder))
    if (name.startsWith(program) && name.endsWith('.cache')) rmSync(join(folder, name), { force: true });
}

/** A file of types alone stands among the sources as it is. */
function isDeclared(sources: string, name: string): boolean {
  return existsSync(join(sources, `${name}.d.ts`));
}
