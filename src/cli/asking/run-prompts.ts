/** A ridden run asked for at the prompt, one thing after the other, and back again. */
import { Left, type Action, type Prompter } from '../../console/prompter.ts';
import { markWords } from '../../report/bike/trial-text.ts';
import { turnWords } from '../../report/pit-sheet/trial.ts';
import { MOST_NAME, printable } from '../../report/foreign-text.ts';
import { LOWEST, doubtfulTime } from '../../trials/record.ts';
import { nextArm } from '../../trials/sequence.ts';
import {
  standWords,
  wordsFor,
  type Arm,
  type BegunRun,
  type Feeling,
  type RiddenRun,
  type Trial,
} from '../../trials/trial.ts';
import { Refusal } from '../../host/io.ts';
import { readRest } from './rest-of-run.ts';

export interface AskedRun {
  /** undefined when the user left before the end */
  readonly run?: Omit<RiddenRun, 'at'>;
  /** what was said until then */
  readonly begun: BegunRun;
  /** what was noted of it spoiled it: it is left out, and ridden again */
  readonly spoiled?: true;
}

const BACK: Action = { key: 'b', value: 'back', name: 'back' };
/** Typed where a line of text is asked for. */
const BACK_TYPED = 'b';

/** One thing to ask: what is known after it, or `back`. */
type Ask = (begun: BegunRun) => Promise<BegunRun | 'back'>;

/** Begins where the last asking was left. */
export async function askRun(trial: Trial, prompter: Prompter): Promise<AskedRun> {
  const head = `Trial of the ${wordsFor(trial.change)}, run ${trial.ridden.length + 1}`;
  let spoiled = false;
  const asks: Ask[] = [
    ...(trial.hidden === undefined ? [(begun: BegunRun) => askHidden(begun, head, prompter)] : []),
    (begun) => askArm(trial, begun, head, prompter),
    ...trial.feelings.map(
      (feeling): Ask =>
        (begun) =>
          askRating(feeling, begun, head, prompter),
    ),
    (begun) => askRest(trial, begun, prompter),
    async (begun) => {
      if (begun.note === undefined) return begun;
      const counts = await askCounts(begun.note, head, prompter);
      if (counts === 'back') return 'back';
      spoiled = counts === 'again';
      return begun;
    },
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
    ...(spoiled ? { spoiled } : {}),
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
    message: 'Does whoever rides it know how the bike is set for each run?',
    help: 'Whoever knows tends to like the advised setting. The trial still counts, but for less.',
    choices: [
      { value: 'hidden', name: 'No: somebody else sets it and says nothing' },
      { value: 'known', name: 'Yes, or you ride and set it alone' },
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
  const { arms, change } = trial;
  const { unit } = change;
  const at = ({ set }: Arm): string => standWords(change, set);
  const planned = arms.find(({ name }) => name === nextArm(trial))!;
  const name = wordsFor(change);
  for (;;) {
    // The places keep their order from run to run, so that a number always means the same.
    const { value } = await prompter.ask({
      head,
      message: `Where was the ${name}? The plan says ${at(planned)}.`,
      choices: arms.map((arm) => ({
        value: arm.name,
        name: `${at(arm)}: ${arm.name === 'reference' ? 'the reference' : turnWords(arm.set - arms[0].set, unit, arm.name === 'sham')}`,
      })),
      actions: trial.hidden === undefined ? [BACK] : [],
      start: arms.indexOf(planned),
    });
    if (value === BACK.value) return 'back';
    const arm = arms.find((one) => one.name === value)!;
    if (arm === planned) return { ...begun, arm: arm.name };
    const { value: really } = await prompter.ask({
      head: `The plan says ${at(planned)} for this run.`,
      message: `Was it really at ${at(arm)}?`,
      choices: [
        { value: 'yes', name: `yes, it was at ${at(arm)}` },
        { value: 'no', name: 'no, my mistake: ask again' },
      ],
      actions: [],
      deliberate: true,
    });
    if (really === 'yes') return { ...begun, arm: arm.name };
  }
}

async function askRating(
  feeling: Feeling,
  begun: BegunRun,
  head: string,
  prompter: Prompter,
): Promise<BegunRun | 'back'> {
  const { id } = feeling;
  const { value } = await prompter.ask({
    head,
    message: `${feeling.ask}?`,
    choices: markWords(feeling).map((name, i) => ({ value: String(LOWEST + i), name })),
    actions: [{ key: 'c', value: 'none', name: "can't tell", answers: true }, BACK],
    // Return alone gives no mark.
    deliberate: true,
  });
  if (value === BACK.value) return 'back';
  const { [id]: _, ...others } = begun.ratings;
  return { ...begun, ratings: value === 'none' ? others : { ...others, [id]: Number(value) } };
}

async function askRest(trial: Trial, begun: BegunRun, prompter: Prompter): Promise<BegunRun | 'back'> {
  for (;;) {
    const typed = (
      await prompter.text(
        'Time (61.2 or 1:01.2), a note, or both (61.2, slid once). Return for none, b for back:',
      )
    ).trim();
    if (typed === BACK_TYPED) return 'back';
    const { seconds: _, note: __, ...rest } = begun;
    try {
      const told = readRest(typed);
      const long = told.seconds === undefined ? undefined : doubtfulTime(trial, told.seconds);
      if (long === undefined || (await isRight(told.seconds!, long, prompter))) return { ...rest, ...told };
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      prompter.say(`  ${error.message}\n`);
    }
  }
}

/** Of a run of which something is noted: a slide, a crash or another line says nothing about the settings. */
async function askCounts(
  note: string,
  head: string,
  prompter: Prompter,
): Promise<'counts' | 'again' | 'back'> {
  const { value } = await prompter.ask({
    head: `${head}: "${printable(note, MOST_NAME)}"`,
    message: 'Does this run count?',
    choices: [
      { value: 'counts', name: 'yes: it was ridden like the others' },
      { value: 'again', name: 'no, that spoiled it: leave it out, and ride it again' },
    ],
    actions: [BACK],
    deliberate: true,
  });
  return value === BACK.value ? 'back' : value === 'again' ? 'again' : 'counts';
}

/** @param long how long that is, in words */
async function isRight(seconds: number, long: string, prompter: Prompter): Promise<boolean> {
  const { value } = await prompter.ask({
    head: `That is ${long}.`,
    message: `Did this run take ${seconds} s?`,
    choices: [
      { value: 'yes', name: 'yes' },
      { value: 'no', name: 'no, my mistake: ask again' },
    ],
    actions: [],
    deliberate: true,
  });
  return value === 'yes';
}
