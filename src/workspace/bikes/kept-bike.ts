/**
 * What the model of a bike said, kept by the content of its sheet: the same bike again needs no model. A sheet with any
 * other number in it is another bike, and a rebuilt program believes nothing that an older one kept.
 */
import type { BikeSheet } from '../../bike/sheet.ts';
import { builtAt } from '../rules/built-in.ts';
import type { Io } from '../../host/io.ts';
import {
  fromBytes,
  keepFrom,
  keepNothing,
  toBytes,
  type Keep,
  type NamedNumbers,
} from '../../diagnosis/fast/precomputed.ts';
import { once } from '../../diagnosis/fast/once.ts';
import { readKept, readKeptBytes, writeKept, writeKeptBytes, type Shelf } from '../kept.ts';
import { sha256 } from '../../disk/sha256.ts';
import { VERSION } from '../../host/root.ts';

const BIKES: Shelf = { name: 'bikes', most: 200 };
/** More bikes than this in one start are a batch: they will hardly come again, and writing them costs more than it saves. */
const MOST_A_START = 20;

/** How many a start has written. */
const written = new WeakMap<Io, number>();

/**
 * @param bike a sheet, or the kind of bike that stands in where none is given
 * @param what which of its numbers, for example the change in notation
 * @param isIt whether what was kept has the form it must have
 */
export async function ofBike<T>(
  io: Io,
  bike: BikeSheet | string,
  what: string,
  isIt: (kept: unknown) => kept is T,
  make: () => Promise<T>,
): Promise<T> {
  const name = nameOf(bike, what);
  const kept = name === undefined ? undefined : readKept(io, BIKES, name);
  if (isIt(kept)) return kept;
  const made = await make();
  const before = written.get(io) ?? 0;
  written.set(io, before + 1);
  if (name !== undefined && before < MOST_A_START) await writeKept(io, BIKES, name, made);
  return made;
}

/**
 * Numbers of a bench on this bike under these rules, as an earlier start left them; what had to be worked out is kept for
 * the next.
 */
export function benchNumbers(io: Io, rules: string, sheet: BikeSheet): Keep {
  const before = written.get(io) ?? 0;
  const name = before < MOST_A_START ? nameOf(sheet, `bench ${rules}`) : undefined;
  if (name === undefined || io.afterwards === undefined) return keepNothing;
  written.set(io, before + 1);
  // A case that was told before asks for none of them.
  const kept = once(() => {
    const bytes = readKeptBytes(io, BIKES, name);
    return bytes === undefined ? undefined : fromBytes(name, bytes);
  });
  const made = new Map<string, NamedNumbers>();
  io.afterwards(async () => {
    if (made.size === 0) return;
    const all = new Map(made);
    for (const one of kept()?.names ?? []) {
      const numbers = kept()!.get(one);
      if (numbers !== undefined) all.set(one, numbers);
    }
    await writeKeptBytes(io, BIKES, name, toBytes(name, all));
  });
  return keepFrom(kept, made);
}

function nameOf(bike: BikeSheet | string, what: string): string | undefined {
  const built = builtAt();
  return built === undefined
    ? undefined
    : sha256()
        .update(JSON.stringify([VERSION, built, what, bike]))
        .digest('hex');
}
