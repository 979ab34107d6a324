/**
 * What was worked out once and is kept for the next start, a file each: nothing there is ever needed, and nothing there is
 * believed that this user's program did not write. What is read decides whether a bike is ridden.
 */
import {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  openSync,
  readdirSync,
  readFileSync,
  statSync,
} from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { isAbsolute, join } from 'node:path';
import { cryptography } from '../disk/sha256.ts';
import type { Io } from '../host/io.ts';

/** A folder of kept things, and how many of them: the last few are enough. */
export interface Shelf {
  readonly name: string;
  readonly most: number;
}

/** After the seal the body begins here, so that numbers in it lie where the machine wants them. */
const BODY = 72;

const KEY = 'key';
const KEY_BYTES = 32;

/** What keeping asks of whoever keeps: where to, and where work may wait. */
type Keeper = Pick<Io, 'env' | 'afterwards'>;

/** The folders that a start looks over: once is enough. */
const swept = new WeakMap<Keeper, Set<string>>();

/**
 * Once the output is out, removes what killed writers left on that shelf, also where nothing of it is wanted: where all that
 * is wanted was kept, nothing is written that would sweep it.
 */
export function sweepShelf(io: Keeper, shelf: Shelf): void {
  const folder = cacheFolder(io, shelf);
  const before = swept.get(io) ?? new Set();
  if (before.has(folder)) return;
  swept.set(io, before.add(folder));
  io.afterwards?.(async () => {
    // What sweeps it is not loaded for nothing.
    if (!isOwnFolder(folder) || !readdirSync(folder).some((name) => name.endsWith('.aside'))) return;
    (await import('../disk/spare-file.ts')).sweepSpare(folder);
  });
}

/** @returns what was kept under that name; undefined when there is nothing to be believed */
export function readKept(io: Keeper, shelf: Shelf, name: string): unknown {
  const body = readKeptBytes(io, shelf, name);
  if (body === undefined) return undefined;
  try {
    return JSON.parse(body.toString('utf8'));
  } catch {
    return undefined;
  }
}

/** The same as bytes; they begin at a multiple of eight in their buffer. */
export function readKeptBytes(io: Keeper, shelf: Shelf, name: string): Buffer<ArrayBuffer> | undefined {
  const folder = cacheFolder(io, shelf);
  sweepShelf(io, shelf);
  if (!isOwnFolder(folder)) return undefined;
  const key = readOwn(join(folder, KEY));
  const bytes = key?.length === KEY_BYTES ? readOwn(fileIn(folder, name)) : undefined;
  if (key === undefined || bytes === undefined) return undefined;
  const body = bytes.subarray(BODY);
  const seal = Buffer.from(bytes.subarray(0, BODY).toString('latin1').trim(), 'hex');
  const right = sealOf(name, body, key);
  if (seal.length !== right.length || !cryptography().timingSafeEqual(seal, right)) return undefined;
  // Small files lie in a pool of the engine's, anywhere in it.
  return body.byteOffset % 8 === 0 ? body : Buffer.from(new Uint8Array(body).buffer);
}

/** Keeps it, and lets the oldest go. What cannot be written only costs time. */
export async function writeKept(io: Keeper, shelf: Shelf, name: string, value: unknown): Promise<void> {
  await writeKeptBytes(io, shelf, name, Buffer.from(JSON.stringify(value)));
}

export async function writeKeptBytes(
  io: Keeper,
  shelf: Shelf,
  name: string,
  body: Uint8Array,
): Promise<void> {
  const folder = cacheFolder(io, shelf);
  try {
    const { createSpare, dropSpare, putSpare, sweepSpare } = await import('../disk/spare-file.ts');
    const { makeFolders } = await import('../disk/make-folders.ts');
    makeFolders(folder, 0o700);
    if (!isOwnFolder(folder)) return;
    sweepSpare(folder);
    const place = join(folder, KEY);
    if (readOwn(place)?.length !== KEY_BYTES) {
      dropSpare(place);
      createSpare(place, cryptography().randomBytes(KEY_BYTES));
    }
    const key = readOwn(place);
    if (key === undefined) return;
    const seal = `${sealOf(name, body, key)
      .toString('hex')
      .padEnd(BODY - 1)}\n`;
    putSpare(fileIn(folder, name), Buffer.concat([Buffer.from(seal), body]));
    prune(folder, shelf.most, dropSpare);
  } catch {
    return;
  }
}

function cacheFolder({ env }: Keeper, shelf: Shelf): string {
  const named = env['EARSHOT_HOME']?.trim() || env['XDG_CACHE_HOME']?.trim() || '';
  // A place named from the working folder would be another one in every folder, and anybody's.
  const home = isAbsolute(named)
    ? named
    : process.platform === 'win32'
      ? tmpdir()
      : join(homedir(), '.cache');
  return join(home, 'earshot', shelf.name);
}

function fileIn(folder: string, name: string): string {
  return join(folder, `${name}.json`);
}

/** Over the name too: what was kept of one thing is not believed of another. */
function sealOf(name: string, body: Uint8Array, key: Uint8Array): Buffer {
  return cryptography().createHmac('sha256', key).update(name).update('\n').update(body).digest();
}

/** Whether nobody else can put anything in there. */
function isOwnFolder(folder: string): boolean {
  try {
    const found = lstatSync(folder);
    return found.isDirectory() && isOwn(found);
  } catch {
    return false;
  }
}

/** A plain file that only this user can have written; undefined otherwise. */
function readOwn(path: string): Buffer<ArrayBuffer> | undefined {
  let file: number | undefined;
  try {
    file = openSync(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0));
    const found = fstatSync(file);
    return found.isFile() && isOwn(found) ? (readFileSync(file) as Buffer<ArrayBuffer>) : undefined;
  } catch {
    return undefined;
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

function isOwn({ uid, mode }: { readonly uid: number; readonly mode: number }): boolean {
  // Without user ids the folder of the user is its owner's anyway.
  return process.getuid === undefined || (uid === process.getuid() && (mode & 0o022) === 0);
}

function prune(folder: string, most: number, drop: (path: string) => void): void {
  const kept = readdirSync(folder)
    .filter((name) => name.endsWith('.json') && !name.startsWith('.'))
    .map((name) => ({ path: join(folder, name), time: statSync(join(folder, name)).mtimeMs }))
    .toSorted((a, b) => b.time - a.time);
  for (const { path } of kept.slice(most)) drop(path);
}
