/**
 * The history and the bike's own sheet, changed together so that a kill at any instant never leaves them apart for good.
 *
 * Three steps under one lock: what is about to happen is noted (`sheet/pending.yaml`); then the entry is appended; then
 * the sheet is replaced and the note removed. The next writer finds the note: with the entry in the history the sheet is
 * brought up to it; without, nothing was changed and the note goes. A sheet that somebody edited in the meantime is left
 * alone. A reader only tells. The note holds neither a path nor a text to write: whoever is handed a log of somebody
 * else's loses nothing by it.
 */
import { createHash } from 'node:crypto';
import { readdir, readFile, realpath, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import * as z from 'zod';
import { sweepAside, sweepBeside } from '../disk/aside.ts';
import { makeFolder, PRIVATE, readIfThere, replaceFile } from '../disk/atomic-file.ts';
import type { Entry, SettingChange } from './entry.ts';
import { asLogError, LogError } from '../disk/errors.ts';
import { withLock } from './lock.ts';
import type { BikeLog } from './log.ts';
import { stayInside } from '../disk/stay-inside.ts';
import { readForm, writeYaml } from '../disk/yaml-file.ts';

const form = z.strictObject({
  /** the number of the last entry before it */
  after: z.int().nonnegative(),
  kind: z.enum(['change', 'undo', 'counted', 'note']),
  changes: z.array(z.unknown()),
  /** what was asked for, in the words of whoever asked */
  intent: z.string(),
  /** SHA-256 of the sheet's file before it */
  before: z.string(),
});
type Pending = z.infer<typeof form>;

/** The sheet that was opened: no other file is ever written. */
export interface SheetFile {
  readonly path: string;
  /**
   * The text of a sheet with those settings put where the changes say: the same text where they stand there already,
   * undefined where it cannot be done.
   */
  readonly bring: (text: string, changes: readonly SettingChange[]) => string | undefined;
}

/** What is about to happen to both. */
export interface SheetWrite {
  readonly kind: 'change' | 'undo' | 'counted' | 'note';
  readonly changes: readonly SettingChange[];
  readonly intent: string;
  /** the sheet's file as it is, and as it shall be */
  readonly before: string;
  readonly text: string;
}

/** Writes both; to be called once. */
export type WriteSheet = (
  what: SheetWrite,
  append: () => Promise<{ readonly entry: Entry }>,
) => Promise<void>;

/** What an interrupted write came to. */
export interface Finished {
  /** in words for the user; absent where sheet and log had come together already */
  readonly said?: string;
  readonly entry?: Entry;
  /** what was asked for then; asking for the same again may be meant for it */
  readonly intent?: string;
}

/**
 * Runs the work alone among all that write this bike's sheet through its log, after finishing what was interrupted.
 * @param work gets a writer: call it once, with what shall be, and how the entry is appended
 */
export async function withSheet<T>(
  log: BikeLog,
  sheet: SheetFile,
  work: (write: WriteSheet, finished: Finished | undefined) => Promise<T>,
): Promise<T> {
  return await alone(log, async (folder) => {
    const finished = await finish(log, folder, sheet);
    return await work(async (what, append) => {
      const file = await fileOf(sheet);
      const last = (await log.readHistory()).entries.at(-1)?.entry ?? 0;
      const { kind, changes, intent, before } = what;
      const pending: Pending = { after: last, kind, changes: [...changes], intent, before: sha256(before) };
      await replaceFile(noteIn(folder), writeYaml(pending), PRIVATE);
      let entry: Entry;
      try {
        ({ entry } = await append());
      } catch (error) {
        // Not in the history: nothing happened. If it is there after all, the note must stay.
        if (error instanceof LogError && (await entryOf(log, pending)) === undefined)
          await rm(noteIn(folder), { force: true });
        throw error;
      }
      await put(file, what.text, entry);
      await rm(noteIn(folder), { force: true });
    }, finished);
  });
}

/** Once the entry is in the history, doing it again would do it twice: whatever fails now is said that way. */
async function put(file: string, text: string, entry: Entry): Promise<void> {
  try {
    await replaceFile(file, text);
  } catch (error) {
    const { message, remedy } = asLogError(error, file);
    throw new LogError(
      'sheet-behind',
      `Entry ${entry.entry} is in the log, but not yet on the sheet: ${message}`,
      `${remedy.replace('and try again', 'first').replace('; then do it again', '')} Do not make this change again: the next change of this bike, or earshot log note, brings the sheet up to date.`,
      { file, cause: error },
    );
  }
}

/** Finishes what was interrupted, where it can be. Only for who is about to write. */
export async function finishSheet(log: BikeLog, sheet: SheetFile): Promise<Finished | undefined> {
  await sweepBeside(await fileOf(sheet));
  const folder = join(log.folder, 'sheet');
  // Also what a writer left that was killed before its note stood there.
  if ((await readdir(folder).catch(() => [])).every((name) => name === '.lock')) return undefined;
  return await alone(log, (held) => finish(log, held, sheet));
}

/** In words, that the sheet is behind its log; undefined when it is not. Writes nothing. */
export async function sheetBehind(log: BikeLog, path: string): Promise<string | undefined> {
  const pending = await readNote(noteIn(join(log.folder, 'sheet')));
  const entry = pending === undefined ? undefined : await entryOf(log, pending);
  if (entry === undefined) return undefined;
  const now = await readFile(path, 'utf8').catch(() => undefined);
  if (now === undefined || sha256(now) !== pending!.before) return undefined;
  return `A write was interrupted: entry ${entry.entry} of the log is not on ${path} yet. The next change of this bike, or earshot log note, brings it up to date.`;
}

async function finish(log: BikeLog, folder: string, sheet: SheetFile): Promise<Finished | undefined> {
  const note = noteIn(folder);
  if ((await readIfThere(note)) === undefined) return undefined;
  const pending = await readNote(note);
  if (pending === undefined) {
    await rm(note, { force: true });
    return { said: `${note} could not be read and was removed: compare the sheet with the log.` };
  }
  const entry = await entryOf(log, pending);
  if (entry === undefined) {
    await rm(note, { force: true });
    return undefined;
  }
  const { intent } = pending;
  const file = await fileOf(sheet);
  const now = (await readIfThere(file))?.toString('utf8') ?? '';
  const wanted = sheet.bring(now, entry.changes ?? []);
  const text = sha256(now) === pending.before || wanted === now ? wanted : undefined;
  if (text !== undefined && text !== now) await put(file, text, entry);
  await rm(note, { force: true });
  if (text === now) return { entry, intent };
  return text === undefined
    ? {
        said: `A write was interrupted, and ${sheet.path} has changed since: check that it says the same as entry ${entry.entry} of the log.`,
        entry,
        intent,
      }
    : {
        said: `A write was interrupted: ${sheet.path} was brought up to entry ${entry.entry} of the log.`,
        entry,
        intent,
      };
}

async function readNote(note: string): Promise<Pending | undefined> {
  const bytes = await readIfThere(note);
  return bytes === undefined ? undefined : readForm(bytes.toString('utf8'), note, form).value;
}

async function fileOf({ path }: SheetFile): Promise<string> {
  return await realpath(path).catch((error: unknown) => {
    throw asLogError(error, path);
  });
}

/** The entry that the note speaks of, if it was written. */
async function entryOf(log: BikeLog, pending: Pending): Promise<Entry | undefined> {
  return (await log.readHistory()).entries.find(
    (entry) => entry.entry > pending.after && speaksOf(pending, entry),
  );
}

function speaksOf({ kind, changes }: Pending, entry: Entry): boolean {
  const plain = (all: readonly unknown[]): string => JSON.stringify(all.map(sorted));
  return entry.kind === kind && plain(entry.changes ?? []) === plain(changes);
}

function sorted(change: unknown): unknown {
  return Object.entries(change as object).sort(([a], [b]) => (a < b ? -1 : 1));
}

async function alone<T>(log: BikeLog, work: (folder: string) => Promise<T>): Promise<T> {
  const folder = join(log.folder, 'sheet');
  // One after the other: nothing is made behind a link that leads out.
  makeFolder(log.folder);
  await stayInside(dirname(dirname(log.folder)), log.folder);
  makeFolder(folder);
  await stayInside(log.folder, folder);
  return await withLock(folder, async () => {
    await sweepAside(folder);
    return await work(folder);
  });
}

function noteIn(folder: string): string {
  return join(folder, 'pending.yaml');
}

function sha256(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}
