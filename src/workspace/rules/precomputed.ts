/** What follows from the rules alone, ahead of all cases: of the built-in ones by the build, of others by the first start that needed it. */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { join } from 'node:path';
import {
  fromBytes,
  keepFrom,
  openKept,
  toBytes,
  type Keep,
  type Kept,
  type NamedNumbers,
} from '../../diagnosis/fast/precomputed.ts';
import { once } from '../../diagnosis/fast/once.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { BUILT } from './built-in.ts';
import type { Io } from '../../host/io.ts';
import { readKeptBytes, writeKeptBytes, type Shelf } from '../kept.ts';

export const BUILT_NUMBERS = join(BUILT, 'base.numbers');

const NUMBERS: Shelf = { name: 'numbers', most: 4 };

/** Of edited rules and of further packs what this start had to work out is kept for the next. */
export function keptNumbers(io: Io, rules: CompiledRules): Keep {
  const built = once(() => builtNumbers(rules.digest));
  const kept = once(() => built() ?? ownNumbers(io, rules.digest));
  const made = new Map<string, NamedNumbers>();
  io.afterwards?.(async () => {
    if (made.size === 0 || built() !== undefined) return;
    const all = new Map(made);
    for (const name of kept()?.names ?? []) {
      const numbers = kept()!.get(name);
      if (numbers !== undefined) all.set(name, numbers);
    }
    await writeKeptBytes(io, NUMBERS, rules.digest, toBytes(rules.digest, all));
  });
  return keepFrom(kept, made);
}

/** Opened once a process, whatever asks for them; the date is that of the file. */
let before: { readonly kept: Kept; readonly digest: string; readonly mtimeMs: number } | undefined;

/** A case needs a part of them, so the file is read part by part. */
function builtNumbers(digest: string): Kept | undefined {
  try {
    const file = openSync(BUILT_NUMBERS, 'r');
    const { size, mtimeMs } = fstatSync(file);
    if (before?.digest === digest && before.mtimeMs === mtimeMs) {
      closeSync(file);
      return before.kept;
    }
    const kept = openKept(digest, size, (from, length) => {
      const bytes = new Uint8Array(length);
      return readSync(file, bytes, 0, length, from) === length ? bytes : undefined;
    });
    // Of other rules: nothing will be read from it.
    if (kept === undefined) closeSync(file);
    else before = { kept, digest, mtimeMs };
    return kept;
  } catch {
    return undefined;
  }
}

function ownNumbers(io: Io, digest: string): Kept | undefined {
  try {
    const bytes = readKeptBytes(io, NUMBERS, digest);
    return bytes === undefined ? undefined : fromBytes(digest, bytes);
  } catch {
    return undefined;
  }
}
