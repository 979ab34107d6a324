/** What is added to a bike's log, with its sheet kept in step. */
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Entry, EntryDraft } from '../../logbook/entry.ts';
import type { Appended } from '../../logbook/history.ts';
import { withSheet, type SheetWrite } from '../../logbook/sheet-writing.ts';
import { entryLines } from '../../report/bike/log-text.ts';
import { page, type Style } from '../../report/style.ts';
import { EXIT, type ExitCode, type Io } from '../../host/io.ts';
import { loadSheet } from './load-sheet.ts';
import { refusing, type WritableBike } from './open-bike.ts';
import { readText } from '../../disk/read-file.ts';
import { sheetFile } from './sheet-file.ts';
import { editedText } from './sheet-text.ts';
import { mayBeWritten } from '../../disk/write-new.ts';

/** Adds an entry that leaves the sheet alone. */
export async function appended(
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
  style: Style,
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
    'This was written down the first time, so it was not done twice. To do it once more, run the command again.\n',
  );
  await io.out(page(entryLines(entry, style, sheet), style));
}
