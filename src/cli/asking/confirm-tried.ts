/** Changes that the rider's words tell of: shown back, and kept only where they are confirmed. */
import { ENDS } from '../../bike/sheet.ts';
import type { Tried } from '../../casework/case.ts';
import type { Prompter } from '../../console/prompter.ts';
import { triedWords } from '../../report/verdict/tried-words.ts';
import { farOf, PUT_BACK } from './tried-prompt.ts';
import { thingsAt, type Triable } from './triable.ts';
import type { TriedReading } from '../../words/tried.ts';

export async function confirmTried(
  prompter: Prompter,
  readings: readonly TriedReading[],
  bike: Triable,
): Promise<Tried[]> {
  const tried: Tried[] = [];
  // One change with two results was put back, or not, once.
  const backs = new Map<string, Tried['putBack']>();
  for (const reading of readings) {
    const ends = reading.end === undefined ? ENDS : [reading.end];
    const { value } = await prompter.ask({
      head: `"${reading.text}"`,
      message: 'Did you try this?',
      choices: ends.map((end) => ({ value: end, name: triedWords({ ...reading, end }, bike.sheet) })),
      actions: [{ key: 'n', value: 'none', name: 'no', answers: true }],
    });
    const end = ends.find((one) => one === value);
    if (end === undefined) continue;
    const { setting, direction, result } = reading;
    const { by, unit } =
      reading.by === undefined ? await askFar(prompter, `${end}.${setting}`, bike) : reading;
    tried.push({
      setting: `${end}.${setting}`,
      direction,
      ...(by === undefined || unit === undefined ? {} : { by, unit }),
      result,
      ...(reading.for === undefined ? {} : { for: reading.for }),
      putBack: reading.putBack === 'yes' ? 'yes' : (backs.get(reading.text) ?? (await askPutBack(prompter))),
    });
    backs.set(reading.text, tried.at(-1)!.putBack);
  }
  return tried;
}

/** How far it was turned, where the words do not say and one unit counts it. */
async function askFar(
  prompter: Prompter,
  setting: string,
  bike: Triable,
): Promise<{ readonly by?: number; readonly unit?: string }> {
  const units = new Set(
    ENDS.flatMap((end) => thingsAt(end, bike))
      .filter((thing) => thing.setting === setting || thing.setting.startsWith(`${setting}.`))
      .map(({ unit }) => unit),
  );
  const [unit] = units;
  if (units.size !== 1 || unit === undefined) return {};
  const by = farOf(await prompter.text(`How many ${unit}? (Return: don't know)`));
  return by === undefined ? {} : { by, unit };
}

async function askPutBack(prompter: Prompter): Promise<Tried['putBack']> {
  const { value } = await prompter.ask({
    head: '',
    message: 'Was it put back?',
    choices: PUT_BACK,
    actions: [],
  });
  return value as Tried['putBack'];
}
