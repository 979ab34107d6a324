/** A change that the rider's words tell of: shown back, and kept only where it is confirmed. */
import { ENDS } from '../../../bike/sheet.ts';
import type { Tried } from '../../../casework/case.ts';
import type { Action, Prompter } from '../../../console/prompter.ts';
import { triedWords } from '../../../report/verdict/tried-words.ts';
import { askFar, PUT_BACK } from '../tried-prompt.ts';
import { thingsAt, type Triable } from '../triable.ts';
import type { TriedReading } from '../../../words/tried/tried.ts';

const BACK: Action = { key: 'b', value: 'back', name: 'back' };

/**
 * @param known whether the same change was put back, where it was told with another result already
 * @returns undefined where it was not so; `back` where its first question is gone back from
 */
export async function confirmTried(
  prompter: Prompter,
  reading: TriedReading,
  bike: Triable,
  known: Tried['putBack'] | undefined,
): Promise<Tried | 'back' | undefined> {
  const ends = reading.end === undefined ? ENDS : [reading.end];
  const { setting, direction, result } = reading;
  for (;;) {
    const { value } = await prompter.ask({
      head: `"${reading.text}"`,
      message: 'Did you try this?',
      choices: ends.map((end) => ({ value: end, name: triedWords({ ...reading, end }, bike.sheet) })),
      actions: [{ key: 'n', value: 'none', name: 'no', answers: true }, BACK],
    });
    if (value === BACK.value) return 'back';
    const end = ends.find((one) => one === value);
    if (end === undefined) return undefined;
    const far = reading.by === undefined ? await askHowFar(prompter, `${end}.${setting}`, bike) : reading;
    if (far === 'back') continue;
    const { by, unit } = far;
    const putBack = reading.putBack === 'yes' ? 'yes' : (known ?? (await askPutBack(prompter)));
    if (putBack === 'back') continue;
    return {
      setting: `${end}.${setting}`,
      direction,
      ...(by === undefined || unit === undefined ? {} : { by, unit }),
      result,
      ...(reading.for === undefined ? {} : { for: reading.for }),
      putBack,
    };
  }
}

/** How far it was turned, where the words do not say and one unit counts it. */
async function askHowFar(
  prompter: Prompter,
  setting: string,
  bike: Triable,
): Promise<{ readonly by?: number; readonly unit?: string } | 'back'> {
  const units = new Set(
    ENDS.flatMap((end) => thingsAt(end, bike))
      .filter((thing) => thing.setting === setting || thing.setting.startsWith(`${setting}.`))
      .map(({ unit }) => unit),
  );
  const [unit] = units;
  if (units.size !== 1 || unit === undefined) return {};
  const by = await askFar(prompter, unit);
  return by === 'back' ? by : by === undefined ? {} : { by, unit };
}

async function askPutBack(prompter: Prompter): Promise<Tried['putBack'] | 'back'> {
  const { value } = await prompter.ask({
    head: '',
    message: 'Was it put back?',
    choices: PUT_BACK,
    actions: [BACK],
  });
  return value as Tried['putBack'] | 'back';
}
