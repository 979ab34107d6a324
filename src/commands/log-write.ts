/** `earshot log change|undo|note|start`: what is added to a bike's log, with its sheet kept in step. */
import { applyChanges } from '../bike/apply.ts';
import { parseChange, printChange } from '../bike/change.ts';
import { movedBetween, withStands } from '../bike/stands.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import type { Entry, EntryDraft } from '../logbook/entry.ts';
import type { Appended } from '../logbook/history.ts';
import { lastUndoable, reversed, standings } from '../logbook/replay.ts';
import { withSheet, type SheetWrite } from '../logbook/sheet-writing.ts';
import { neverCounted, stockTaking } from '../logbook/stock-taking.ts';
import { entryLines } from '../report/log-text.ts';
import { page } from '../report/columns.ts';
import type { Style } from '../report/style.ts';
import type { Prompter } from '../console/prompter.ts';
import { countFirst } from './count-first.ts';
import { refusedChanges } from './set-line.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { loadSheet } from './load-sheet.ts';
import { openToWrite, refusing, type WritableBike } from './open-bike.ts';
import { packArgs, quoted } from './quoted.ts';
import { readText } from './read-file.ts';
import { sheetFile } from './sheet-file.ts';
import { editedText } from './sheet-text.ts';
import { mayBeWritten } from './write-new.ts';

interface WriteOptions {
  readonly bike: string;
  readonly reason?: string | undefined;
  readonly style: Style;
}

export interface ChangeOptions extends WriteOptions {
  readonly change: string;
  /** for a number that nobody wrote down yet */
  readonly prompter?: () => Promise<Prompter>;
}

/** Sets the sheet and writes it down, both or (after the next command) none. */
export async function logChange(options: ChangeOptions, io: Io): Promise<ExitCode> {
  const bike = await openToWrite(options.bike, io);
  const { changes, problems } = parseChange(options.change, bike.sheet.settings);
  if (problems.length > 0) throw new Refusal(problems.map((p) => `${p.message} ${p.remedy}`).join('\n'));
  const { sheet } = bike;
  if (await countFirst({ ...options, sheet, changes }, io)) return await logChange(options, io);
  return await writing(bike, options, printChange(changes), io, async (before, write) => {
    const applied = applyChanges(before, changes);
    if (applied.sheet === undefined)
      throw new Refusal(refusedChanges(applied.problems, options.bike, io), EXIT.some);
    const moved = movedBetween(before, applied.sheet);
    if (moved.length === 0) throw new Refusal(`${printChange(changes)} is too small to record.`, EXIT.some);
    if (neverCounted((await bike.log.readHistory()).entries)) await bike.log.append(stockTaking(before));
    const draft = { kind: 'change', changes: moved, ...because(options.reason) } as const;
    await write({ kind: 'change', changes: moved }, applied.sheet, () => bike.log.append(draft));
  });
}

/** Takes the last change back, in the log and on the sheet. */
export async function logUndo(options: WriteOptions, io: Io): Promise<ExitCode> {
  const bike = await openToWrite(options.bike, io);
  return await writing(bike, options, 'undo', io, async (before, write) => {
    const { entries } = await bike.log.readHistory();
    const last = lastUndoable(entries);
    // With nothing to take back the log says so itself.
    const back = last === undefined ? [] : reversed(last, standings(entries));
    const { sheet, refused } = withStands(
      before,
      back.map(({ to, ...rest }) => ({ ...rest, value: to })),
    );
    await write({ kind: 'undo', changes: back }, sheet, () => bike.log.undo(options.reason));
    for (const { setting, message, remedy } of refused)
      io.err(`${setting} was taken back in the log but not on the sheet: ${message} ${remedy}\n`);
  });
}

export interface NoteOptions extends WriteOptions {
  readonly text: string;
  /** the interview whose advice was followed */
  readonly case?: string | undefined;
}

export async function logNote(options: NoteOptions, io: Io): Promise<ExitCode> {
  const bike = await openToWrite(options.bike, io);
  if (options.text.trim() === '') throw new Refusal('Nothing to note.');
  const about = options.case === undefined ? {} : { case: options.case };
  return await appended(bike, { kind: 'note', reason: options.text.trim(), ...about }, options.style, io);
}

/** Counts the bike afresh: where the sheet says everything stands now. What was before is no longer taken back. */
export async function logStart(options: WriteOptions, io: Io): Promise<ExitCode> {
  const bike = await openToWrite(options.bike, io);
  const draft = stockTaking(bike.sheet, options.reason);
  if (draft.changes?.length === 0)
    throw new Refusal(
      `The sheet records no settings. See what to count: earshot bike check ${quoted(options.bike)}${packArgs(io.packs)}`,
    );
  return await appended(bike, draft, options.style, io);
}

async function appended(
  { log, sheet }: WritableBike,
  draft: EntryDraft,
  style: Style,
  io: Io,
): Promise<ExitCode> {
  await told(await refusing(() => log.append(draft)), style, io, sheet);
  return EXIT.done;
}

async function told({ entry, warnings }: Appended, style: Style, io: Io, sheet: BikeSheet): Promise<void> {
  for (const warning of warnings) io.err(`${warning}\n`);
  await io.out(page(entryLines(entry, style, sheet), style));
}

type Write = (
  what: Pick<SheetWrite, 'kind' | 'changes'>,
  after: BikeSheet,
  append: () => Promise<Appended>,
) => Promise<void>;

/** Under the lock of the sheet, with the sheet as it is then. */
export async function writing(
  bike: WritableBike,
  { style }: Pick<WriteOptions, 'style'>,
  intent: string,
  io: Io,
  work: (before: BikeSheet, write: Write) => Promise<void>,
): Promise<ExitCode> {
  await mayBeWritten(bike.path);
  await refusing(() =>
    withSheet(bike.log, sheetFile(bike.path, bike.sheet.settings), async (put, justNow) => {
      if (justNow?.said !== undefined) io.err(`${justNow.said}\n`);
      const finished = justNow ?? bike.finished;
      if (finished?.intent === intent && finished.entry !== undefined)
        return await alreadyDone(finished.entry, style, io, bike.sheet);
      const text = await readText(bike.path, io.cwd);
      const { sheet } = await loadSheet(bike.path, io.cwd, bike.sheet.settings ?? []);
      await work(sheet, async (what, after, append) => {
        let done: Appended | undefined;
        const next = editedText(text, sheet, after, bike.path);
        await put({ ...what, intent, before: text, text: next }, async () => (done = await append()));
        if (done !== undefined) await told(done, style, io, after);
      });
    }),
  );
  return EXIT.done;
}

/** Whoever was told of a failure, or nothing at all, does it again: once is enough. */
async function alreadyDone(entry: Entry, style: Style, io: Io, sheet: BikeSheet): Promise<void> {
  io.err(
    'This was written down the first time, so it was not done twice. To do it once more, say it again.\n',
  );
  await io.out(page(entryLines(entry, style, sheet), style));
}

function because(reason: string | undefined): { reason?: string } {
  return reason === undefined ? {} : { reason };
}
