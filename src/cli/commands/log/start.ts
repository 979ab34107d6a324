/**
 * `earshot log start`: counts the bike afresh, where the sheet says everything stands now. What was before is no longer
 * taken back.
 */
import { stockTaking } from '../../../logbook/entry.ts';
import { command, onBike, text } from '../../takes.ts';
import { Refusal } from '../../../host/io.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import { appended } from '../../../workspace/bikes/written-down.ts';

export const logStart = command({
  about: 'restart the log from the sheet, after counting everything again',
  options: { bike: onBike(), reason: text('text', 'why') },
  examples: [['earshot log start --bike my-bike.yaml --reason "counted again"', 'a fresh start']],
  run: async (given, { io, style }) => {
    const bike = await openToWrite(given.bike, io);
    const draft = stockTaking(bike.sheet, given.reason);
    if (draft.changes?.length === 0)
      throw new Refusal(
        `The sheet records no settings. See what to count: earshot bike check ${quoted(given.bike)}${packArgs(io.packs)}`,
      );
    return await appended(bike, draft, await style(), io);
  },
});
