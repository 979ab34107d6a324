import { relative } from 'node:path';
import type { Io } from './io.ts';

/** A path or a name as a shell takes it, for commands that are printed to be copied; a tilde is no home. */
export function quoted(text: string): string {
  return /^[\w@%+=:,./-]+$/.test(text) ? text : `'${text.replaceAll("'", String.raw`'\''`)}'`;
}

/** The further packs of this line, for a command that is printed: a sheet with their settings is read with them alone. */
export function packArgs(packs: readonly string[] = []): string {
  return packs.map((pack) => ` --rules ${quoted(pack)}`).join('');
}

/** A path as a shell takes it, short where it can be. */
export function shellPath(path: string, { cwd, env }: Pick<Io, 'cwd' | 'env'>): string {
  const near = relative(cwd, path);
  if (!near.startsWith('..')) return quoted(near);
  const home = env['HOME'];
  return home !== undefined && path.startsWith(`${home}/`)
    ? `~/${quoted(path.slice(home.length + 1))}`
    : quoted(path);
}
