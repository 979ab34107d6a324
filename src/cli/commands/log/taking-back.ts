/** Undo and redo of a bike: the log and the sheet go back together, and no open trial is spoiled by it. */
import { standsOf, withStands } from '../../../bike/setting-values.ts';
import { settingWords } from '../../../bike/setting-words.ts';
import type { ExitCode, Io } from '../../../host/io.ts';
import { shownValue } from '../../../logbook/entry.ts';
import { driftOf, standings } from '../../../logbook/replay.ts';
import { reversed, takenBackNext, type TakeBack } from '../../../logbook/take-back.ts';
import type { Style } from '../../../report/style.ts';
import { besideTrial } from '../../../workspace/bikes/beside-trial.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { openOnes, trialsOf } from '../../../workspace/bikes/trial-shelf.ts';
import { writing } from '../../../workspace/bikes/written-down.ts';

interface TakingBack {
  readonly bike: string;
  readonly reason?: string | undefined;
  readonly style: Style;
}

const KIND = { undo: 'undo', redo: 'change' } as const;

export async function takingBack(what: TakeBack, given: TakingBack, io: Io): Promise<ExitCode> {
  const bike = await openToWrite(given.bike, io);
  return await writing(bike, given.style, what, io, async (before, write) => {
    const { entries } = await bike.log.readHistory();
    const last = takenBackNext(entries, what);
    // With nothing to take back the log says so itself.
    const back = last === undefined ? [] : reversed(last, standings(entries));
    const { sheet, refused } = withStands(
      before,
      back.map(({ to, ...rest }) => ({ ...rest, value: to })),
    );
    const [open] = openOnes(await trialsOf(bike, io));
    const beside = besideTrial(open, [before, sheet], given.bike, io, last?.at);
    await write({ kind: KIND[what], changes: back }, sheet, () => bike.log[what](given.reason));
    const moved = new Set(back.map(({ setting }) => setting));
    const stray = driftOf(
      standsOf(before).filter(({ setting }) => moved.has(setting)),
      standings(entries),
    );
    for (const { setting, sheet: here, log, unit, entry } of stray)
      io.err(
        `${settingWords(setting, before)}: the sheet said ${shownValue(here, unit)}, the log ${shownValue(log, unit)} (entry ${entry}). Both say now where it was before that change: count from fully closed, or read the gauge, and set it so.\n`,
      );
    if (beside !== undefined) io.err(`${beside}\n`);
    for (const { setting, message, remedy } of refused)
      io.err(`${setting} was taken back in the log but not on the sheet: ${message} ${remedy}\n`);
  });
}
