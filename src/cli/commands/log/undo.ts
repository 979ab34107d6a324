/** `earshot log undo`: takes the last change back, in the log and on the sheet. */
import { withStands } from '../../../bike/setting-values.ts';
import { lastUndoable, reversed, standings } from '../../../logbook/replay.ts';
import { command, onBike, text } from '../../takes.ts';
import { besideTrial } from '../../../workspace/bikes/beside-trial.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { openOnes, trialsOf } from '../../../workspace/bikes/trial-shelf.ts';
import { writing } from '../../../workspace/bikes/written-down.ts';

export const logUndo = command({
  about: 'undo the last change, in the log and on the sheet; run it again to undo the one before',
  options: { bike: onBike(), reason: text('text', 'why') },
  examples: [['earshot log undo --bike my-bike.yaml', 'undo the last change']],
  run: async (given, { io, style }) => {
    const bike = await openToWrite(given.bike, io);
    return await writing(bike, await style(), 'undo', io, async (before, write) => {
      const { entries } = await bike.log.readHistory();
      const last = lastUndoable(entries);
      // With nothing to take back the log says so itself.
      const back = last === undefined ? [] : reversed(last, standings(entries));
      const { sheet, refused } = withStands(
        before,
        back.map(({ to, ...rest }) => ({ ...rest, value: to })),
      );
      const [open] = openOnes(await trialsOf(bike, io));
      const beside = besideTrial(open, [before, sheet], given.bike, io, last?.at);
      await write({ kind: 'undo', changes: back }, sheet, () => bike.log.undo(given.reason));
      if (beside !== undefined) io.err(`${beside}\n`);
      for (const { setting, message, remedy } of refused)
        io.err(`${setting} was taken back in the log but not on the sheet: ${message} ${remedy}\n`);
    });
  },
});
