/**
 * The compiled form of the program for another engine than that of the build, by the command it was made in: the first start
 * of a command leaves it, the next take it in. `bin/earshot.js` asks for it before it loads the program.
 */
import { statSync } from 'node:fs';
import { basename } from 'node:path';
import type { Script } from 'node:vm';
import { readKeptBytes, writeKeptBytes, type Shelf } from './kept.ts';

/** Two files a command, one of the version, a megabyte and a half a command: those of two engines. */
const CODE: Shelf = { name: 'code', most: 18 };

/** The engine takes no form of another version of itself, nor of another text. */
function nameOf(program: string, command: string): string {
  const { size, mtimeMs } = statSync(program);
  return `${process.versions.v8}-${process.arch}-${basename(program)}-${size}-${mtimeMs}-${command}`;
}

/** @param program one of its files; @param command a word of letters and dashes */
export function keptCode(program: string, command: string): Uint8Array | undefined {
  return readKeptBytes({ env: process.env }, CODE, nameOf(program, command));
}

/** Once the command has run, so that all it needed is in it. */
export async function keepCode(program: string, command: string, script: Script): Promise<void> {
  await writeKeptBytes({ env: process.env }, CODE, nameOf(program, command), script.createCachedData());
}
