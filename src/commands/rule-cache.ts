/**
 * Where compiled packs of the user's own are kept: nothing there is ever needed, and nothing there is believed that this
 * user's program did not write. What is read decides whether a bike is ridden.
 */
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
} from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { isAbsolute, join } from 'node:path';
import { COMPILED_FORMAT, type CompiledRules } from '../rulebase/compiled.ts';
import type { Io } from './io.ts';

/** Packs are edited and tried; the last few are enough. */
const MOST_KEPT = 8;
const KEY = 'key';
const KEY_BYTES = 32;

/** @returns the compiled form of that digest; undefined when there is none to be believed */
export function readCache(io: Io, digest: string): CompiledRules | undefined {
  const folder = cacheFolder(io);
  if (!isOwnFolder(folder)) return undefined;
  const key = readOwn(join(folder, KEY));
  const bytes = key?.length === KEY_BYTES ? readOwn(fileIn(folder, digest)) : undefined;
  if (key === undefined || bytes === undefined) return undefined;
  const cut = bytes.indexOf(10);
  const body = bytes.subarray(cut + 1);
  const seal = Buffer.from(bytes.subarray(0, cut).toString('latin1'), 'hex');
  const right = sealOf(body, key);
  if (seal.length !== right.length || !timingSafeEqual(seal, right)) return undefined;
  try {
    const rules = JSON.parse(body.toString('utf8')) as CompiledRules;
    return rules.format === COMPILED_FORMAT && rules.digest === digest ? rules : undefined;
  } catch {
    return undefined;
  }
}

/** Keeps a compiled form, and lets the oldest go. A cache that cannot be written only costs time. */
export async function writeCache(io: Io, digest: string, rules: CompiledRules): Promise<void> {
  const folder = cacheFolder(io);
  try {
    const { createFile, PRIVATE, replaceFile } = await import('../logbook/durable.ts');
    const { makeFolders } = await import('../logbook/make-folders.ts');
    makeFolders(folder, 0o700);
    if (!isOwnFolder(folder)) return;
    const place = join(folder, KEY);
    if (readOwn(place)?.length !== KEY_BYTES) {
      rmSync(place, { force: true });
      await createFile(place, randomBytes(KEY_BYTES), PRIVATE);
    }
    const key = readOwn(place);
    if (key === undefined) return;
    const body = Buffer.from(JSON.stringify(rules));
    const text = `${sealOf(body, key).toString('hex')}\n${body.toString('utf8')}`;
    await replaceFile(fileIn(folder, digest), text, { ...PRIVATE, durable: false });
    prune(folder);
  } catch {
    return;
  }
}

function cacheFolder({ env }: Io): string {
  const named = env['EARSHOT_HOME']?.trim() || env['XDG_CACHE_HOME']?.trim() || '';
  // A place named from the working folder would be another one in every folder, and anybody's.
  const home = isAbsolute(named)
    ? named
    : process.platform === 'win32'
      ? tmpdir()
      : join(homedir(), '.cache');
  return join(home, 'earshot', 'rules');
}

function fileIn(folder: string, digest: string): string {
  return join(folder, `${digest}.json`);
}

function sealOf(body: Uint8Array, key: Uint8Array): Buffer {
  return createHmac('sha256', key).update(body).digest();
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
function readOwn(path: string): Buffer | undefined {
  let file: number | undefined;
  try {
    file = openSync(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0));
    const found = fstatSync(file);
    return found.isFile() && isOwn(found) ? readFileSync(file) : undefined;
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

function prune(folder: string): void {
  const kept = readdirSync(folder)
    .filter((name) => name.endsWith('.json') && !name.startsWith('.'))
    .map((name) => ({ path: join(folder, name), time: statSync(join(folder, name)).mtimeMs }))
    .toSorted((a, b) => b.time - a.time);
  for (const { path } of kept.slice(MOST_KEPT)) rmSync(path, { force: true });
}
