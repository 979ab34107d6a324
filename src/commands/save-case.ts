/** Writes a case file so that a kill at any instant leaves the old or the new one, never a half. */
import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { stringify } from 'yaml';
import { Refusal, type Io } from './io.ts';

/** @param durable whether to wait until it is on the disk; an autosave between prompts need not */
export function saveCase(path: string, data: Readonly<Record<string, unknown>>, durable: boolean): void {
  const aside = `${path}.${process.pid}.part`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    const file = openSync(aside, 'w', 0o644);
    try {
      writeSync(file, stringify(data));
      if (durable) fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(aside, path);
  } catch (error) {
    rmSync(aside, { force: true });
    throw new Refusal(
      `${path}: the case cannot be written (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'}). Choose another place with --save.`,
    );
  }
}

/** Where an interview's answers are kept as it goes on. */
export function autosavePath(io: Io, id: string): string {
  const home =
    io.env['EARSHOT_HOME'] ??
    join(io.env['XDG_DATA_HOME'] ?? join(io.env['HOME'] ?? homedir(), '.local', 'share'), 'earshot');
  return join(home, 'interviews', `${safeName(id)}.yaml`);
}

/** An id as a file name: no folders, no odd signs, never empty, never long. */
export function safeName(id: string): string {
  const name = id
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/^[.-]+/, '')
    .slice(0, 80);
  return name === '' ? 'case' : name;
}
