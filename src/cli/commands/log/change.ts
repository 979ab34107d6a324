/** `earshot log change`: sets the sheet and writes it down, both or (after the next command) none. */
import { mostAtOnce } from '../../../advice/step/large-step.ts';
import { applyChanges, type AppliedChanges } from '../../../bike/apply.ts';
import { parseChange, printChange } from '../../../bike/change.ts';
import { movedBetween } from '../../../bike/setting-values.ts';
import { settingWords, sizeWords } from '../../../bike/setting-words.ts';
import type { BikeSheet } from '../../../bike/sheet.ts';
import { capital } from '../../../form/text.ts';
import { neverCounted, stockTaking } from '../../../logbook/entry.ts';
import { arg, command, onBike, text, type Given, type Here } from '../../takes.ts';
import type { Style } from '../../../report/style.ts';
import { countFirst } from '../bike/count-first.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../../host/io.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import { reasonIn } from '../../../rulebase/reasons.ts';
import { besideTrial } from '../../../workspace/bikes/beside-trial.ts';
import { refusedChanges } from '../../../workspace/bikes/set-line.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { openOnes, trialsOf } from '../../../workspace/bikes/trial-shelf.ts';
import { writing } from '../../../workspace/bikes/written-down.ts';
import { loadRules } from '../../../workspace/rules/load-rules.ts';

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
  const { changes, problems } = parseChange(given.change, bike.sheet.settings, bike.sheet);
  if (problems.length > 0) throw new Refusal(problems.map((p) => `${p.message} ${p.remedy}`).join('\n'));
  const { sheet } = bike;
  if (await countFirst({ ...given, sheet, changes }, io)) return await change(given, io);
  return await writing(bike, given.style, printChange(changes), io, async (before, write) => {
    const applied = applyChanges(before, changes);
    if (applied.sheet === undefined)
      throw new Refusal(refusedChanges(applied.problems, given.bike, io), EXIT.some);
    const moved = movedBetween(before, applied.sheet);
    if (moved.length === 0) throw new Refusal(`${printChange(changes)} is too small to record.`, EXIT.some);
    const [open] = openOnes(await trialsOf(bike, io));
    const beside = besideTrial(open, [before, applied.sheet], given.bike, io);
    if (neverCounted((await bike.log.readHistory()).entries)) await bike.log.append(stockTaking(before));
    const draft = {
      kind: 'change',
      changes: moved,
      ...(given.reason === undefined ? {} : { reason: given.reason }),
    } as const;
    await write({ kind: 'change', changes: moved }, applied.sheet, () => bike.log.append(draft));
    if (beside !== undefined) io.err(`${beside}\n`);
    for (const line of await largeSteps(applied.steps, before, given.bike, io)) io.err(`${line}\n`);
  });
}

/** What goes further at once than the trade does: more was meant, or a finger slipped. */
async function largeSteps(
  steps: AppliedChanges['steps'],
  sheet: BikeSheet,
  bike: string,
  io: Io,
): Promise<string[]> {
  const rules = await loadRules(io, io.packs);
  return steps.flatMap(({ setting, unit, from, to }) => {
    const most = mostAtOnce({ setting, unit, from, by: to - from }, sheet, rules);
    if (most === undefined) return [];
    const why = reasonIn(rules.reasons, 'large-step', {
      by: sizeWords(Math.abs(to - from), unit),
      most: sizeWords(most, unit),
      name: settingWords(setting, sheet),
    });
    return [`${capital(why)}. Not meant? earshot log undo --bike ${quoted(bike)}${packArgs(io.packs)}`];
  });
}
