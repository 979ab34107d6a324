/** A ridden run asked for at the prompt, one thing after the other, and back again. */
import { Left, type Action, type Prompter } from '../../console/prompter.ts';
import { turnWords } from '../../report/pit-sheet/trial.ts';
import { HIGHEST, LOWEST } from '../../trials/record.ts';
import { nextArm } from '../../trials/sequence.ts';
import {
  standWords,
  wordsFor,
  type ArmName,
  type BegunRun,
  type Feeling,
  type RiddenRun,
  type Trial,
} from '../../trials/trial.ts';
import { Refusal } from '../../host/io.ts';
import { readTime } from '../commands/trial/run-options.ts';

export interface AskedRun {
  /** undefined when the user left before the end */
  readonly run?: Omit<RiddenRun, 'at'>;
  /** what was said until then */
  readonly begun: BegunRun;
}

const BACK: Action = { key: 'b', value: 'back', name: 'back' };
/** Typed where a line of text is asked for. */
const BACK_TYPED = 'b';

/** One thing to ask: what is known after it, or `back`. */
type Ask = (begun: BegunRun) => Promise<BegunRun | 'back'>;

/** Begins where the last asking was left. */
export async function askRun(trial: Trial, prompter: Prompter): Promise<AskedRun> {
  const head = `Trial of the ${wordsFor(trial.change)}, run ${trial.ridden.length + 1}`;
  const asks: Ask[] = [
    ...(trial.hidden === undefined ? [(begun: BegunRun) => askHidden(begun, head, prompter)] : []),
    (begun) => askArm(trial, begun, head, prompter),
    ...trial.feelings.map(
      (feeling): Ask =>
        (begun) =>
          askRating(feeling, begun, head, prompter),
    ),
    (begun) => askTime(begun, prompter),
    (begun) => askNote(begun, prompter),
  ];
  let begun: BegunRun = trial.begun ?? { ratings: {} };
  let at = trial.begun === undefined ? 0 : firstOpen(trial, begun);
  try {
    while (at < asks.length) {
      const said = await asks[at]!(begun);
      if (said === 'back') at = Math.max(0, at - 1);
      else {
        begun = said;
        at += 1;
      }
    }
  } catch (error) {
    if (error instanceof Left) return { begun };
    throw error;
  }
  const { arm, ratings, seconds, note } = begun;
  return {
    begun,
    run: {
      arm: arm ?? nextArm(trial),
      ratings,
      ...(seconds === undefined ? {} : { seconds }),
      ...(note === undefined ? {} : { note }),
    },
  };
}

/** The first thing that was not asked yet: ratings are asked in their order, so the last one shows how far it went. */
function firstOpen(trial: Trial, { hidden, arm, ratings }: BegunRun): number {
  const before = trial.hidden === undefined ? 1 : 0;
  if (before === 1 && hidden === undefined) return 0;
  if (arm === undefined) return before;
  return before + 1 + trial.feelings.findLastIndex(({ id }) => ratings[id] !== undefined) + 1;
}

async function askHidden(begun: BegunRun, head: string, prompter: Prompter): Promise<BegunRun | 'back'> {
  const { value } = await prompter.ask({
    head,
    message: 'Does the rider know how the bike is set for each run?',
    help: 'A rider who knows tends to like the advised setting. The trial still counts, but for less.',
    choices: [
      { value: 'hidden', name: 'No: somebody else sets it and says nothing' },
      { value: 'known', name: 'Yes, or the rider sets it alone' },
    ],
    actions: [],
  });
  return { ...begun, hidden: value === 'hidden' };
}

async function askArm(
  trial: Trial,
  begun: BegunRun,
  head: string,
  prompter: Prompter,
): Promise<BegunRun | 'back'> {
  const { unit } = trial.change;
  const at = (set: number): string => standWords(trial.change, set);
  const planned = nextArm(trial);
  const arms = trial.arms.toSorted((a, b) => Number(b.name === planned) - Number(a.name === planned));
  const { value } = await prompter.ask({
    head,
    message: `Where was the ${wordsFor(trial.change)}? The plan says ${at(arms[0]!.set)}.`,
    choices: arms.map(({ name, set }) => ({
      value: name,
      name: `${at(set)}: ${name === 'reference' ? 'the reference' : turnWords(set - trial.arms[0].set, unit, name === 'sham')}`,
    })),
    actions: trial.hidden === undefined ? [BACK] : [],
  });
  return value === BACK.value ? 'back' : { ...begun, arm: value as ArmName };
}

async function askRating(
  { id, ask, low, high }: Feeling,
  begun: BegunRun,
  head: string,
  prompter: Prompter,
): Promise<BegunRun | 'back'> {
  const scale = Array.from({ length: HIGHEST - LOWEST + 1 }, (_, i) => LOWEST + i);
  const { value } = await prompter.ask({
    head,
    message: ask,
    choices: scale.map((n) => ({
      value: String(n),
      name: n === LOWEST ? low : n === HIGHEST ? high : `${n} of ${HIGHEST}`,
    })),
    actions: [{ key: 'c', value: 'none', name: "can't tell", answers: true }, BACK],
  });
  if (value === BACK.value) return 'back';
  const { [id]: _, ...others } = begun.ratings;
  return { ...begun, ratings: value === 'none' ? others : { ...others, [id]: Number(value) } };
}

async function askTime(begun: BegunRun, prompter: Prompter): Promise<BegunRun | 'back'> {
  for (;;) {
    const typed = await prompter.text('Time of the run (61.2 or 1:01.2; return: none; b: back):');
    if (typed.trim() === BACK_TYPED) return 'back';
    try {
      const seconds = readTime(typed, '');
      const { seconds: _, ...rest } = begun;
      return { ...rest, ...(seconds === undefined ? {} : { seconds }) };
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      prompter.say(`  ${error.message}\n`);
    }
  }
}

async function askNote(begun: BegunRun, prompter: Prompter): Promise<BegunRun | 'back'> {
  const note = (await prompter.text('A note (return: none; b: back):')).trim();
  if (note === BACK_TYPED) return 'back';
  const { note: _, ...rest } = begun;
  return { ...rest, ...(note === '' ? {} : { note }) };
}
