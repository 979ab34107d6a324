/** A change that the rider's words tell of: shown back, and kept only where it is confirmed. */
import { ENDS, type End } from '../../../bike/sheet.ts';
import { dimensionOf } from '../../../bike/units.ts';
import type { Tried } from '../../../casework/case.ts';
import type { Action, Choice, Prompter } from '../../../console/prompter.ts';
import { triedWords } from '../../../report/verdict/tried-words.ts';
import { askFar, PUT_BACK, RESULTS } from '../tried-prompt.ts';
import { KNOB_WAYS, thingsAt, type Triable } from '../triable.ts';
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
  const { setting } = reading;
  for (;;) {
    const { value } = await prompter.ask({
      head: `"${reading.text}"`,
      message: 'Did you try this?',
      choices: [
        ...ends.map((end) => ({ value: end, name: triedWords({ ...reading, end }, bike.sheet) })),
        { value: NEARLY, name: 'nearly: something in it was different' },
      ],
      actions: [{ key: 'n', value: 'none', name: 'no', answers: true }, BACK],
    });
    if (value === BACK.value) return 'back';
    const meant = value === NEARLY ? await askRight(prompter, reading) : { ...reading, end: value as End };
    if (meant === 'back') continue;
    if (!ENDS.includes(meant.end)) return undefined;
    const { end, direction, result } = meant;
    const far =
      reading.by === undefined ? await askHowFar(prompter, `${end}.${setting}`, bike, reading) : reading;
    if (far === 'back') continue;
    const { by, unit } = far;
    // What was heard wrong may have been put back, or not, as well.
    const heard = value === NEARLY ? undefined : reading.putBack === 'yes' ? 'yes' : known;
    const putBack = heard ?? (await askPutBack(prompter));
    if (putBack === 'back') continue;
    return {
      setting: `${end}.${setting}`,
      direction,
      ...(by === undefined ? {} : { by }),
      ...(unit === undefined ? {} : { unit }),
      result,
      ...(reading.for === undefined ? {} : { for: reading.for }),
      putBack,
    };
  }
}

const NEARLY = 'nearly';

/** The two ways that words tell of a change. */
const WAYS: readonly (readonly Choice[])[] = [
  KNOB_WAYS,
  [
    { value: 'more', name: 'more' },
    { value: 'less', name: 'less' },
  ],
];

type Meant = Pick<TriedReading, 'direction' | 'result'> & { readonly end: End };

/** What may have been heard wrong, each as it was heard until it is said otherwise; back goes one question back. */
async function askRight(prompter: Prompter, reading: TriedReading): Promise<Meant | 'back'> {
  const ways = WAYS.find((pair) => pair.some(({ value }) => value === reading.direction))!;
  const asks = [
    { message: 'At which end?', choices: ENDS.map((end) => ({ value: end, name: end })), was: reading.end },
    { message: 'Which way?', choices: ways, was: reading.direction },
    { message: 'What did it do?', choices: RESULTS, was: reading.result },
  ];
  const given: string[] = [];
  while (given.length < asks.length) {
    const { message, choices, was } = asks[given.length]!;
    const start = choices.findIndex(({ value: one }) => one === was);
    const { value } = await prompter.ask({
      head: `"${reading.text}"`,
      message,
      choices,
      actions: [BACK],
      ...(start < 0 ? { deliberate: true } : { start }),
    });
    if (value !== BACK.value) given.push(value);
    else if (given.pop() === undefined) return 'back';
  }
  const [end, direction, result] = given;
  return { end, direction, result } as Meant;
}

/** How far it was turned, where the words do not say and one unit counts it, or they tell which. */
async function askHowFar(
  prompter: Prompter,
  setting: string,
  bike: Triable,
  { unit: told }: Pick<TriedReading, 'unit'>,
): Promise<{ readonly by?: number; readonly unit?: string } | 'back'> {
  const all = new Set(
    ENDS.flatMap((end) => thingsAt(end, bike))
      .filter((thing) => thing.setting === setting || thing.setting.startsWith(`${setting}.`))
      .flatMap(({ unit }) => unit ?? []),
  );
  const units = [...all].filter((one) => told === undefined || dimensionOf(one) === dimensionOf(told));
  const [unit] = units;
  if (units.length !== 1 || unit === undefined) return told === undefined ? {} : { unit: told };
  const by = await askFar(prompter, unit);
  if (by === 'back') return by;
  return by === undefined ? (told === undefined ? {} : { unit: told }) : { by, unit };
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
