/** Bringing a log of an older format up to date. */
import { cp, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod';
import { makeFolder, readIfThere, PRIVATE, replaceFile } from '../disk/atomic-file.ts';
import { asLogError, brokenFile, LogError } from '../disk/errors.ts';
import { readForm, writeYaml } from '../disk/yaml-file.ts';

/** The format of the files that this version writes. */
export const LOG_FORMAT = 1;

/** Brings the folder from one format to the next. It may be run again on its own half-done work after a kill. */
export type Migration = (folder: string) => Promise<void>;
/** format → the step that leaves it */
export type Migrations = Readonly<Record<number, Migration>>;
export const MIGRATIONS: Migrations = {};

export interface LogFile {
  readonly log: number;
  readonly bike: string;
}

const form = z.strictObject({ log: z.int().positive(), bike: z.string().min(1) });
/** What every format says about itself, so that a newer file is told from a broken one. */
const anyForm = z.looseObject({ log: z.int().positive() });

/** `log.yaml` of a folder; undefined when there is none. @throws LogError when it is broken or newer than this version */
export async function readLogFile(folder: string, format: number): Promise<LogFile | undefined> {
  const file = join(folder, 'log.yaml');
  const bytes = await readIfThere(file);
  if (bytes === undefined) return undefined;
  const text = bytes.toString('utf8');
  const version = readForm(text, file, anyForm).value?.log;
  if (version !== undefined && version > format) {
    throw new LogError(
      'newer-version',
      `${file} was written by a newer earshot (format ${version}; this one knows ${format}).`,
      'Nothing was read or changed. Use the newer version for this log.',
      { file },
    );
  }
  const read = readForm(text, file, form);
  if (read.value === undefined) throw brokenFile(read.problems);
  return read.value;
}

export async function writeLogFile(folder: string, log: LogFile): Promise<void> {
  await replaceFile(join(folder, 'log.yaml'), writeYaml(log), PRIVATE);
}

/**
 * Steps the folder up to `format`, under the lock. The files as they were are kept in `before-format-N`; the version
 * is written last after each step, so a kill in between repeats that step and loses nothing.
 */
export async function migrate(
  folder: string,
  log: LogFile,
  format: number,
  migrations: Migrations,
): Promise<void> {
  for (let version = log.log; version < format; version++) {
    const step = migrations[version];
    if (step === undefined) {
      throw new LogError(
        'io',
        `${folder} has format ${version}, and nothing here leads on from it.`,
        'Use the version of earshot that wrote it.',
        { file: folder },
      );
    }
    await keepCopy(folder, version);
    await step(folder);
    await writeLogFile(folder, { ...log, log: version + 1 });
  }
}

async function keepCopy(folder: string, format: number): Promise<void> {
  const copy = join(folder, `before-format-${format + 1}`);
  if ((await readIfThere(join(copy, 'log.yaml'))) !== undefined) return;
  try {
    makeFolder(copy);
    const names = (await readdir(folder)).filter(
      (name) => !name.startsWith('before-format-') && !name.startsWith('.'),
    );
    // log.yaml last: it says that the copy is whole
    const inOrder = [
      ...names.filter((name) => name !== 'log.yaml'),
      ...names.filter((name) => name === 'log.yaml'),
    ];
    for (const name of inOrder) await cp(join(folder, name), join(copy, name), { recursive: true });
  } catch (error) {
    throw asLogError(error, copy);
  }
}
