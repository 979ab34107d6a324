/** A ridden run asked for at the prompt. */
import type { Prompter } from '../console/prompter.ts';
import { turnWords } from '../report/pit-sheet-trial.ts';
import { HIGHEST, LOWEST } from '../trials/record.ts';
import { nextArm } from '../trials/sequence.ts';
import { tidy, type ArmName, type Feeling, type Trial } from '../trials/trial.ts';
import { Refusal } from './io.ts';
import { readTime } from './run-options.ts';

export interface AskedRun {
  readonly arm: ArmName;
  readonly ratings: Readonly<Record<string, number>>;
  readonly seconds?: number;
  readonly note?: string;
}

/** @throws Left when the user leaves; nothing was written down then */
export async function askRun(trial: Trial, prompter: Prompter): Promise<AskedRun> {
  const head = `Trial ${trial.id}, run ${trial.ridden.length + 1}`;
  const arm = await askArm(trial, head, prompter);
  const ratings: Record<string, number> = {};
  for (const feeling of trial.feelings) {
    const value = await askRating(feeling, head, prompter);
    if (value !== undefined) ratings[feeling.id] = value;
  }
  const seconds = await askTime(prompter);
  const note = (await prompter.text('A note (return: none):')).trim();
  return {
    arm,
    ratings,
    ...(seconds === undefined ? {} : { seconds }),
    ...(note === '' ? {} : { note }),
  };
}

async function askArm(trial: Trial, head: string, prompter: Prompter): Promise<ArmName> {
  const { setting, unit } = trial.change;
  const planned = nextArm(trial);
  const arms = trial.arms.toSorted((a, b) => Number(b.name === planned) - Number(a.name === planned));
  const { value } = await prompter.ask({
    head,
    message: `Where did ${setting} stand? The plan says ${tidy(arms[0]!.set)} ${unit}.`,
    choices: arms.map(({ name, set }) => ({
      value: name,
      name: `${tidy(set)} ${unit}: ${name === 'reference' ? 'the reference' : turnWords(set - trial.arms[0].set, unit, name === 'sham')}`,
    })),
    actions: [],
  });
  return value as ArmName;
}

async function askRating(
  { ask, low, high }: Feeling,
  head: string,
  prompter: Prompter,
): Promise<number | undefined> {
  const scale = Array.from({ length: HIGHEST - LOWEST + 1 }, (_, i) => LOWEST + i);
  const { value } = await prompter.ask({
    head,
    message: ask,
    choices: scale.map((n) => ({
      value: String(n),
      name: n === LOWEST ? low : n === HIGHEST ? high : `${n} of ${HIGHEST}`,
    })),
    actions: [{ key: 'x', value: 'none', name: "can't tell: leave it out", answers: true }],
  });
  return value === 'none' ? undefined : Number(value);
}

async function askTime(prompter: Prompter): Promise<number | undefined> {
  for (;;) {
    try {
      return readTime(await prompter.text('Time of the run (61.2 or 1:01.2; return: none):'), '');
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      prompter.say(`  ${error.message}\n`);
    }
  }
}
