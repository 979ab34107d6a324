/** Reads a text file, or says in one line why not and what to do. */
import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { Refusal } from './io.ts';

const MOST_BYTES = 256 * 1024 * 1024;

/** @throws Refusal when there is no such file, it is a folder, too large, or not UTF-8 text */
// oxlint-disable-next-line require-await -- read at once, because waiting costs a short file more than reading it
export async function readText(path: string, cwd: string): Promise<string> {
  const full = resolve(cwd, path);
  let bytes: Uint8Array;
  try {
    const found = statSync(full);
    if (found.isDirectory()) throw new Refusal(`${path}: this is a folder. Name a file.`);
    if (found.size > MOST_BYTES)
      throw new Refusal(
        `${path}: the file is larger than 256 MB. Feed it line by line: earshot diagnose - < ${path}`,
      );
    bytes = readFileSync(full);
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${path}: ${reason(error)}`);
  }
  return decode(bytes, path);
}

/** @throws Refusal when the bytes are not UTF-8 */
export function decode(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Refusal(`${name}: this is not UTF-8 text. Save it as UTF-8.`);
  }
}

function reason(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return 'no such file. Check the name and the folder.';
  if (code === 'EACCES' || code === 'EPERM') return 'you may not read this file. Check its permissions.';
  return `it cannot be read (${code ?? (error as Error).message}).`;
}
