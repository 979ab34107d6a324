/** `earshot bike set`: what was counted or read goes onto the sheet, and into its log. Nothing was turned. */
import { args, command, onBike, text } from '../../takes.ts';
import { setValues, type Given } from '../../../bike/set-values.ts';
import { movedBetween, standsOf, type Moved } from '../../../bike/setting-values.ts';
import { knobsOfSide } from '../../../bike/settings.ts';
import { writeSheet } from '../../../bike/form/write.ts';
import { type EntryDraft, neverCounted, stockTaking } from '../../../logbook/entry.ts';
import { driftOf, type Standings } from '../../../logbook/replay.ts';
import type { SheetFile } from '../../../bike/form/schema.ts';
import type { BikeSheet } from '../../../bike/sheet.ts';
import { typedValue } from './typed-value.ts';
import type { Style } from '../../../report/style.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../../host/io.ts';
import { strayWords } from '../../../workspace/bikes/beside-trial.ts';
import { openOnes, trialsOf } from '../../../workspace/bikes/trial-shelf.ts';
import { writing } from '../../../workspace/bikes/written-down.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';

export const bikeSet = command({
  about: 'write down what was counted or read: front.rebound.low=5 rear.sag=29%',
  args: { value: args('a setting, = and its value; also any place of the sheet, such as rider-mass=84') },
  options: { bike: onBike(), reason: text('text', 'why') },
  examples: [
    ['earshot bike set --bike my-bike.yaml front.rebound.low=5 rear.sag=29%', 'what was counted or read'],
    ['earshot bike set rider-mass=84', 'when only one bike has a log'],
  ],
  run: async ({ value: values, bike, reason }, { io, style }) =>
    setOnSheet({ values, bike, reason, style: await style() }, io),
});

interface Setting {
  readonly bike: string;
  /** key=value */
  readonly values: readonly string[];
  readonly reason?: string | undefined;
  readonly style: Style;
}

export async function setOnSheet({ bike: file, values, reason, style }: Setting, io: Io): Promise<ExitCode> {
  const given = values.map(keyAndValue);
  const bike = await openToWrite(file, io);
  const intent = `set ${values.join(' ')}`;
  return await writing(bike, style, intent, io, async (before, write) => {
    const { sheet, problems } = setValues(before, given);
    if (sheet === undefined) throw new Refusal(problems.join('\n'), EXIT.some);
    const moved = movedBetween(before, sheet);
    const counted = countedAgain(sheet, given, await bike.log.standings());
    const toLog = counted.filter((one) => !moved.some(({ setting }) => setting === one.setting));
    if (JSON.stringify(writeSheet(sheet)) === JSON.stringify(writeSheet(before))) {
      // What is not there needs no line: to say so once more is no mistake.
      if (given.every(({ value }) => value === 'none')) {
        io.err('The sheet says so already.\n');
        return;
      }
      if (toLog.length === 0) throw new Refusal('The sheet says so already; nothing was written.', EXIT.some);
    }
    const changes = [...moved, ...toLog];
    // The clicks of a knob, or a mass, stand nowhere in a log: the words keep what was written.
    const draft: EntryDraft =
      changes.length > 0
        ? { kind: 'counted', changes, ...(reason === undefined ? {} : { reason }) }
        : {
            kind: 'note',
            reason: `${reason ?? 'on the sheet'}: ${values.map((one, i) => typedWords(one, given[i]!, sheet.units)).join(', ')}`,
          };
    if (neverCounted((await bike.log.readHistory()).entries) && changes.length > 0) {
      const start = stockTaking(before);
      if (start.changes?.length !== 0) await bike.log.append(start);
    }
    const what = { kind: draft.kind as 'counted' | 'note', changes };
    await write(what, sheet, () => bike.log.append(draft));
    // What was counted is so, whatever it means for a trial.
    for (const trial of openOnes(await trialsOf(bike, io))) {
      const stray = strayWords(trial, sheet, file);
      if (stray !== undefined) io.err(`${stray}\n`);
    }
  });
}

/** What the sheet says already, and the log otherwise: counted, it is so in both. */
function countedAgain(sheet: BikeSheet, given: readonly Given[], logged: Standings): Moved[] {
  const stands = standsOf(sheet).filter(({ setting }) => given.some(({ key }) => names(key, setting, sheet)));
  return driftOf(stands, logged).map(({ setting, sheet: to, log: from, unit }) => ({
    setting,
    from,
    to,
    unit,
  }));
}

/** Whether a key of the line is a setting, or the side whose one knob it is. */
function names(key: string, setting: string, sheet: BikeSheet): boolean {
  return key === setting || knobsOfSide(sheet, key)?.[0]?.stand === setting;
}

/** As it was typed; a mass without its unit with that it is taken in, so that kilograms meant as pounds are seen. */
function typedWords(text: string, { key, value }: Given, { mass }: BikeSheet['units']): string {
  return typeof value === 'number' && MASSES.includes(key) ? `${text.trim()} ${mass}` : text;
}

const MASSES: readonly string[] = ['rider-mass', 'bike-mass'] satisfies (keyof SheetFile)[];

function keyAndValue(text: string): Given {
  const equals = text.indexOf('=');
  const value = text.slice(equals + 1).trim();
  if (equals < 1 || value === '')
    throw new Refusal(
      `${text}: write a setting, = and its value, such as front.rebound.low=5 or rear.sag=29%.`,
    );
  return { key: text.slice(0, equals).trim().toLowerCase(), value: typedValue(value) };
}
