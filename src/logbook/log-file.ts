/** `log.yaml`: what a log says about itself. */
import { join } from 'node:path';
import * as z from 'zod';
import { readIfThere, PRIVATE, replaceFile } from '../disk/atomic-file.ts';
import { brokenFile, LogError } from '../disk/errors.ts';
import { readForm, writeYaml } from '../disk/yaml-file.ts';

/** The format of the files that this version writes. */
const FORMAT = 1;

export interface LogFile {
  readonly bike: string;
}

const form = z.strictObject({ log: z.literal(FORMAT), bike: z.string().min(1) });
/** What every format says about itself, so that a newer file is told from a broken one. */
const anyForm = z.looseObject({ log: z.int().positive() });

/** Of a folder; undefined when there is none. @throws LogError when it is broken or newer than this version */
export async function readLogFile(folder: string): Promise<LogFile | undefined> {
  const file = join(folder, 'log.yaml');
  const bytes = await readIfThere(file);
  if (bytes === undefined) return undefined;
  const text = bytes.toString('utf8');
  const version = readForm(text, file, anyForm).value?.log;
  if (version !== undefined && version > FORMAT) {
    throw new LogError(
      'newer-version',
      `${file} was written by a newer earshot (format ${version}; this one knows ${FORMAT}).`,
      'Nothing was read or changed. Use the newer version for this log.',
      { file },
    );
  }
  const read = readForm(text, file, form);
  if (read.value === undefined) throw brokenFile(read.problems);
  return read.value;
}

export async function writeLogFile(folder: string, { bike }: LogFile): Promise<void> {
  await replaceFile(join(folder, 'log.yaml'), writeYaml({ log: FORMAT, bike }), PRIVATE);
}
