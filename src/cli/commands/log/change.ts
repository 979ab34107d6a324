/** `earshot log change`: sets the sheet and writes it down, both or (after the next command) none. */
import { applyChanges } from '../../../bike/apply.ts';
import { parseChange, printChange } from '../../../bike/change.ts';
import { movedBetween } from '../../../bike/setting-values.ts';
import { neverCounted, stockTaking } from '../../../logbook/entry.ts';
import { arg, command, onBike, text, type Given, type Here } from '../../takes.ts';
import type { Style } from '../../../report/style.ts';
import { countFirst } from '../bike/count-first.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../../host/io.ts';
import { refusedChanges } from '../../../workspace/bikes/set-line.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { writing } from '../../../workspace/bikes/written-down.ts';

const args = { change: arg('for example front.rebound.low+2, several separated by commas') };
const options = { bike: onBike(), reason: text('text', 'why') };

export const logChange = command({
  about: 'record a change in the log and on the sheet',
  args,
  options,
  examples: [
    ['earshot log change front.rebound.low+2 --bike my-bike.yaml --reason "packs down"', 'two clicks out'],
  ],
  run: async (given, { io, style, prompter }) => change({ ...given, style: await style(), prompter }, io),
});

type ChangeOptions = Given<typeof args & typeof options> & Pick<Here, 'prompter'> & { readonly style: Style };

export async function change(given: ChangeOptions, io: Io): Promise<ExitCode> {
  const bike = await openToWrite(given.bike, io);
  const { changes, problems } = parseChange(given.change, bike.sheet.settings);
  if (problems.length > 0) throw new Refusal(problems.map((p) => `${p.message} ${p.remedy}`).join('\n'));
  const { sheet } = bike;
  if (await countFirst({ ...given, sheet, changes }, io)) return await change(given, io);
  return await writing(bike, given.style, printChange(changes), io, async (before, write) => {
    const applied = applyChanges(before, changes);
    if (applied.sheet === undefined)
      throw new Refusal(refusedChanges(applied.problems, given.bike, io), EXIT.some);
    const moved = movedBetween(before, applied.sheet);
    if (moved.length === 0) throw new Refusal(`${printChange(changes)} is too small to record.`, EXIT.some);
    if (neverCounted((await bike.log.readHistory()).entries)) await bike.log.append(stockTaking(before));
    const draft = {
      kind: 'change',
      changes: moved,
      ...(given.reason === undefined ? {} : { reason: given.reason }),
    } as const;
    await write({ kind: 'change', changes: moved }, applied.sheet, () => bike.log.append(draft));
  });
}
