/**
 * The history and the bike's own sheet, changed together so that a kill at any instant never leaves them apart for good.
 *
 * Three steps under one lock: what the sheet will be is written down first (`sheet/pending.yaml`); then the entry is
 * appended; then the sheet is replaced and the note removed. Whoever comes next finds the note: with the entry in the
 * history the sheet is brought up to it; without, nothing was changed and the note goes. A sheet that somebody edited
 * in the meantime is left alone.
 */
import { realpath, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import * as z from 'zod';
import { makeFolder, readIfThere, replaceFile, sweepAside } from './durable.ts';
import type { Entry, SettingChange } from './entry.ts';
import { asLogError, LogError } from './errors.ts';
import { withLock } from './lock.ts';
import type { BikeLog } from './log.ts';
import { stayInside } from './stay-inside.ts';
import { readForm, writeYaml } from './yaml-file.ts';

const form = z.strictObject({
  sheet: z.string(),
  /** the number of the last entry before it */
  after: z.int().nonnegative(),
  kind: z.enum(['change', 'undo']),
  changes: z.array(z.unknown()),
  before: z.string(),
  text: z.string(),
});
type Pending = z.infer<typeof form>;

/** What is about to happen to both. */
export interface SheetWrite {
  readonly kind: 'change' | 'undo';
  readonly changes: readonly SettingChange[];
  /** the sheet's file as it is, and as it shall be */
  readonly before: string;
  readonly text: string;
}

/** What finishing an interrupted write came to, in words for the user; undefined when there was nothing to finish. */
export type Finished = string | undefined;

/**
 * Runs the work alone among all that write this bike's sheet through its log, after finishing what was interrupted.
 * @param sheet path of the sheet's file
 * @param work gets a writer: call it once, with what shall be, and how the entry is appended
 */
export async function withSheet<T>(
  log: BikeLog,
  sheet: string,
  work: (
    write: (what: SheetWrite, append: () => Promise<{ readonly entry: Entry }>) => Promise<void>,
    finished: Finished,
  ) => Promise<T>,
): Promise<T> {
  return await alone(log, async (folder) => {
    const finished = await finish(log, folder);
    return await work(async (what, append) => {
      const file = await realpath(sheet).catch((error: unknown) => {
        throw asLogError(error, sheet);
      });
      const last = (await log.readHistory()).entries.at(-1)?.entry ?? 0;
      const pending: Pending = { sheet: file, after: last, ...what, changes: [...what.changes] };
      await replaceFile(pendingFile(folder), writeYaml(pending));
      let entry: Entry;
      try {
        ({ entry } = await append());
      } catch (error) {
        // Not in the history: nothing happened. If it is there after all, the note must stay.
        if (error instanceof LogError && (await entryOf(log, pending)) === undefined)
          await rm(pendingFile(folder), { force: true });
        throw error;
      }
      if (!speaksOf(pending, entry)) {
        await rm(pendingFile(folder), { force: true });
        throw new LogError(
          'busy',
          `Another earshot wrote to this log at the same moment: entry ${entry.entry} is not in ${sheet}.`,
          'Compare the sheet with the log.',
          { file: sheet },
        );
      }
      await replaceFile(file, what.text);
      await rm(pendingFile(folder), { force: true });
    }, finished);
  });
}

/** Finishes what a killed process left half done. Quick, and without a lock, when there is nothing. */
export async function finishSheet(log: BikeLog): Promise<Finished> {
  if ((await readIfThere(pendingFile(join(log.folder, 'sheet')))) === undefined) return undefined;
  return await alone(log, (folder) => finish(log, folder));
}

async function finish(log: BikeLog, folder: string): Promise<Finished> {
  const file = pendingFile(folder);
  const bytes = await readIfThere(file);
  if (bytes === undefined) return undefined;
  const read = readForm(bytes.toString('utf8'), file, form);
  if (read.value === undefined) {
    await rm(file, { force: true });
    return `${file} could not be read and was removed: compare the sheet with the log.`;
  }
  const pending = read.value;
  const entry = await entryOf(log, pending);
  if (entry === undefined) {
    await rm(file, { force: true });
    return undefined;
  }
  const now = (await readIfThere(pending.sheet))?.toString('utf8');
  if (now === pending.before) await replaceFile(pending.sheet, pending.text);
  await rm(file, { force: true });
  if (now === pending.text) return undefined;
  if (now === pending.before)
    return `A write was interrupted: ${pending.sheet} was brought up to entry ${entry.entry} of the log.`;
  return `A write was interrupted, and ${pending.sheet} was edited or moved since: entry ${entry.entry} of the log is not in it. Compare them.`;
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

function pendingFile(folder: string): string {
  return join(folder, 'pending.yaml');
}
