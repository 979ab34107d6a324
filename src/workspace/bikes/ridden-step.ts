/** A step that was set and ridden without the runs of a trial: its result in the log, and what stays on the bike on the sheet. */
import { applyChange } from '../../bike/apply.ts';
import { printChange, type Change } from '../../bike/change.ts';
import { movedBetween } from '../../bike/setting-values.ts';
import type { Outcome } from '../../casework/case.ts';
import { readText } from '../../disk/read-file.ts';
import { mayBeWritten } from '../../disk/write-new.ts';
import { EXIT, Refusal, type Io } from '../../host/io.ts';
import type { Plain } from '../../logbook/documents.ts';
import { neverCounted, stockTaking, type Entry, type SettingChange } from '../../logbook/entry.ts';
import { withSheet } from '../../logbook/sheet-writing.ts';
import { loadSheet } from './load-sheet.ts';
import { refusing, type WritableBike } from './open-bike.ts';
import { sheetFile } from './sheet-file.ts';
import { editedText } from './sheet-text.ts';

export interface RiddenStep {
  readonly change: Change;
  /** what was better stays on the bike, anything else was put back */
  readonly outcome: Outcome;
  /** the answers that advised it: they go in before the result, so that no result names answers that are not there */
  readonly case: { readonly id: string; readonly data: Plain };
}

/**
 * Writes it down as a trial's end is: the step that stays, then what came of it.
 * @returns where the setting stands now, where it was turned for good
 * @throws Refusal where the bike cannot be turned so
 */
export async function writeRidden(
  { log, path, sheet: { settings = [] } }: WritableBike,
  { change, outcome, case: { id, data } }: RiddenStep,
  io: Io,
): Promise<readonly SettingChange[]> {
  await mayBeWritten(path);
  return await refusing(() =>
    withSheet(log, sheetFile(path, settings), async (write, finished) => {
      if (finished?.said !== undefined) io.err(`${finished.said}\n`);
      const before = await readText(path, io.cwd);
      const { sheet } = await loadSheet(path, io.cwd, settings);
      const applied = applyChange(sheet, change);
      if ('message' in applied) throw new Refusal(`${applied.message} ${applied.remedy}`, EXIT.some);
      const { entries } = await log.readHistory();
      if (neverCounted(entries)) await log.append(stockTaking(sheet));
      await log.saveCase(id, data);
      const kept = outcome === 'better';
      const from = { trial: freeName(change, entries), case: id };
      const moved = kept ? (movedBetween(sheet, applied.sheet) as SettingChange[]) : [];
      if (moved.length > 0)
        await write(
          {
            kind: 'change',
            changes: moved,
            intent: `ridden ${printChange([change])}`,
            before,
            text: editedText(before, sheet, applied.sheet, path),
          },
          () => log.append({ kind: 'change', changes: moved, reason: 'ridden, and better', ...from }),
        );
      await log.append({
        kind: 'result',
        result: { change: { changes: [change] }, setting: change.setting, outcome, kept },
        ...from,
      });
      return moved;
    }),
  );
}

/** It has no runs, and no trial goes by its name: `front-rebound-low-ridden-1`. */
function freeName({ setting }: Change, entries: readonly Entry[]): string {
  const stem = `${setting.replaceAll('.', '-')}-ridden`;
  for (let n = 1; ; n++) if (!entries.some(({ trial }) => trial === `${stem}-${n}`)) return `${stem}-${n}`;
}
