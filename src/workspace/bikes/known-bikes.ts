/** Bikes by their id: where the sheet of each log was when something was last written to it. */
import { existsSync, readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { logHome, sheetPlace } from '../../logbook/home.ts';
import type { BikeLog } from '../../logbook/log.ts';
import { nearest } from '../../form/suggest.ts';
import { MOST_SHEET_BYTES } from '../../disk/read-file.ts';
import { Refusal, type Io } from '../../host/io.ts';
import { quoted } from '../../host/quoted.ts';
import { tellOnce } from './tell-once.ts';

/** What a bike may be called by where a file name would be too long to be an id. */
const ID = /^[^/\\]+$/;

/** What the file of a sheet ends in. */
const ENDINGS = ['.yaml', '.yml', '.json'];

/**
 * A file is a file; what is none may be the id of a bike that the program knows, or a file of the folder without its ending.
 * Where both are there, it is told which was taken.
 * @returns the path to read; the name itself where nothing is known, so that reading it says so
 * @throws Refusal when the bike is known but its sheet is gone
 */
export function sheetOf(named: string, io: Pick<Io, 'cwd' | 'env' | 'err'>): string {
  if (!ID.test(named)) return named;
  const here = ['', ...ENDINGS].map((ending) => named + ending).find((file) => isFile(resolve(io.cwd, file)));
  const place = sheetPlace(logHome(io.env), named);
  if (here === named || (here !== undefined && place === undefined)) {
    if (place !== undefined && !isSame(resolve(io.cwd, here), place))
      tellOnce(io)(
        `--bike ${quoted(named)} is the file ${named} here. The bike of that name is another: --bike ${quoted(place)}`,
      );
    return here;
  }
  if (place === undefined) return unknown(named, io);
  if (!existsSync(place))
    throw new Refusal(
      `The sheet of ${named} was at ${place}, and is no longer there. Name its file: --bike FILE. Or write it anew, and its log goes on: earshot bike new ${quoted(`${named}.yaml`)} --id ${quoted(named)}`,
    );
  if (here !== undefined && !isSame(resolve(io.cwd, here), place))
    tellOnce(io)(
      `--bike ${quoted(named)} is the bike of that name, ${place}. The file here is another: --bike ${quoted(here)}`,
    );
  return place;
}

function unknown(named: string, io: Pick<Io, 'cwd' | 'env'>): string {
  if (existsSync(resolve(io.cwd, named)) || ENDINGS.some((ending) => named.toLowerCase().endsWith(ending)))
    return named;
  const known = knownBikes(io);
  if (known.length === 0) return named;
  const near = nearest(named, known);
  throw new Refusal(
    `There is no file ${named}, and no bike of that name. ${near === undefined ? `Bikes known: ${known.join(', ')}.` : `Did you mean ${near}?`}`,
  );
}

function isFile(path: string): boolean {
  try {
    return !statSync(path).isDirectory();
  } catch {
    return false;
  }
}

function isSame(one: string, other: string): boolean {
  try {
    return realpathSync(one) === realpathSync(other);
  } catch {
    return false;
  }
}

/** The ids of all bikes whose sheet is known. */
export function knownBikes({ env }: Pick<Io, 'env'>): string[] {
  const home = logHome(env);
  try {
    return readdirSync(join(home, 'bikes'))
      .filter((id) => sheetPlace(home, id) !== undefined)
      .sort();
  } catch {
    return [];
  }
}

/** The bike that is meant where none was named: the only one there is. */
export function onlyBike(io: Pick<Io, 'cwd' | 'env'>): string {
  const known = knownBikes(io);
  if (known.length === 1) return known[0]!;
  if (known.length > 1) throw new Refusal(`Say which bike: ${eitherOf(known)}.`);
  const here = sheetsIn(io.cwd);
  throw new Refusal(
    `No bike has a log yet. ${here.length === 0 ? 'To find out what to change: earshot interview. To keep a bike: earshot bike new my-bike.yaml' : `Name the sheet: ${eitherOf(here)}.`}`,
  );
}

/** `--bike birch or --bike hazel` */
function eitherOf(names: readonly string[]): string {
  return names.map((name) => `--bike ${quoted(name)}`).join(' or ');
}

/** More than this is no folder of bikes. */
const MOST_LOOKED_AT = 50;

/** The files of a folder that begin as a bike sheet does. */
function sheetsIn(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter((name) => /\.ya?ml$/i.test(name))
      .sort()
      .slice(0, MOST_LOOKED_AT)
      .filter((name) => isSheet(join(folder, name)));
  } catch {
    return [];
  }
}

function isSheet(path: string): boolean {
  try {
    const { size } = statSync(path);
    return size <= MOST_SHEET_BYTES && /^bike:\s*\d+\s*(?:#.*)?$/m.test(readFileSync(path, 'utf8'));
  } catch {
    return false;
  }
}

/** The log, taking down where the bike's sheet is with the first thing that is written. */
export function remembering(log: BikeLog, path: string): BikeLog {
  let noted = false;
  const after = async <T>(work: Promise<T>): Promise<T> => {
    const done = await work;
    if (!noted) {
      noted = true;
      await log.savePlace(path);
    }
    return done;
  };
  return {
    ...log,
    append: (draft) => after(log.append(draft)),
    undo: (reason) => after(log.undo(reason)),
    redo: (reason) => after(log.redo(reason)),
    saveCase: (id, data, finished) => after(log.saveCase(id, data, finished)),
    saveTrial: (id, make) => after(log.saveTrial(id, make)),
  };
}
