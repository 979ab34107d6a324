/** Reads a text file, or says in one line why not and what to do. */
import { closeSync, constants, fstatSync, openSync, readFileSync, readSync } from 'node:fs';
import { resolve } from 'node:path';
import { Refusal } from '../host/io.ts';

const MOST_BYTES = 256 * 1024 * 1024;
/** A sheet is a page or two. */
export const MOST_SHEET_BYTES = 1024 * 1024;
const PIECE = 64 * 1024;

export interface Bounds {
  /** only a plain file: waiting for a pipe, or reading a device, may never end */
  readonly plain?: boolean;
  /** bytes; 256 MB when absent */
  readonly most?: number;
}

/** @throws Refusal when there is no such file, it is a folder, too large, or not UTF-8 text */
// oxlint-disable-next-line require-await -- read at once, because waiting costs a short file more than reading it
export async function readText(path: string, cwd: string, bounds: Bounds = {}): Promise<string> {
  let bytes: Uint8Array;
  try {
    bytes = readBytes(resolve(cwd, path), path, bounds);
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${path}: ${reason(error)}`);
  }
  return decode(bytes, path);
}

function readBytes(full: string, path: string, { plain = false, most = MOST_BYTES }: Bounds): Uint8Array {
  // Opening a pipe that nobody writes to waits for ever; not so with this flag, which plain files do not mind.
  const file = openSync(full, plain ? constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) : 'r');
  try {
    const found = fstatSync(file);
    if (found.isDirectory()) throw new Refusal(`${path}: this is a folder. Name a file.`);
    if (plain && !found.isFile()) throw new Refusal(`${path}: this is not a regular file. Name a file.`);
    if (found.size > most) throw tooLarge(path, most);
    if (found.isFile() && found.size > 0) return readFileSync(file);
    // Pipes and devices say nothing of their size, and some have no end.
    const pieces: Uint8Array[] = [];
    for (let size = 0; ;) {
      const piece = new Uint8Array(PIECE);
      const read = readSync(file, piece, 0, PIECE, null);
      if (read === 0) return Buffer.concat(pieces);
      size += read;
      if (size > most) throw tooLarge(path, most);
      pieces.push(piece.subarray(0, read));
    }
  } finally {
    closeSync(file);
  }
}

function tooLarge(path: string, most: number): Refusal {
  const size = `the file is larger than ${most / (1024 * 1024)} MB.`;
  return new Refusal(
    `${path}: ${size}${most < MOST_BYTES ? ' Check its name.' : ` Feed it line by line: earshot diagnose - < ${path}`}`,
  );
}

/** @throws Refusal when the bytes are not UTF-8 */
export function decode(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    if (bytes.includes(0))
      throw new Refusal(`${name}: this is no text, but a picture or another binary file. Check its name.`);
    throw new Refusal(`${name}: this is not UTF-8 text. Save it as UTF-8.`);
  }
}

function reason(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return 'no such file. Check the name and the folder.';
  if (code === 'EACCES' || code === 'EPERM') return 'you may not read this file. Check its permissions.';
  return `it cannot be read (${code ?? (error as Error).message}).`;
}
