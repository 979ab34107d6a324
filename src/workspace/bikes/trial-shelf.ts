/** The trials in a bike's log. */
import type { Round } from '../../casework/case.ts';
import { riddenAsItStands } from '../../casework/retold.ts';
import type { Papers } from '../../logbook/documents.ts';
import { inOrder, pathLine } from '../../form/problem.ts';
import { readTrial } from '../../trials/trial-file.ts';
import type { Trial } from '../../trials/trial.ts';
import { Refusal, type Io } from '../../host/io.ts';
import type { OpenBike } from './open-bike.ts';
import { quoted } from '../../host/quoted.ts';

/** All trials that can be read; the others are named on standard error, with what to correct. */
export async function trialsOf({ log }: Pick<OpenBike, 'log'>, io: Io): Promise<Trial[]> {
  const found = await log.loadTrials();
  for (const { file, line, message, remedy } of found.problems)
    io.err(`${file}:${line}: ${message} ${remedy}\n`);
  return trialsIn(found, (line) => io.err(`${line}\n`));
}

/** @param tell is given each mistake of a paper that is no trial */
export function trialsIn({ papers }: Papers, tell: (line: string) => void): Trial[] {
  return papers.flatMap(({ file, data, locate }): Trial[] => {
    const { value, problems } = readTrial(data);
    for (const problem of inOrder(problems, locate)) tell(pathLine(file, problem, locate));
    return value === undefined ? [] : [value];
  });
}

/** A trial as it is now, under the lock: others may have written to it since it was read. @throws Refusal when it is gone */
export function trialNow(id: string, papers: Papers): Trial {
  const trial = trialsIn(papers, () => undefined).find((one) => one.id === id);
  if (trial === undefined) throw new Refusal(`Trial ${id} is not in the log any more. Nothing was written.`);
  return trial;
}

/**
 * The trials of this very step that were ended on the bike as it stands, oldest first: nothing was kept or changed for
 * good since.
 * @param rounds what the log says of all its trials
 */
export function trialsOfStep(
  trials: readonly Trial[],
  rounds: readonly Round[],
  { setting, unit, from, to }: Pick<Trial['change'], 'setting' | 'unit' | 'from' | 'to'>,
): Trial[] {
  const standing = new Set(riddenAsItStands(rounds).map(({ trial }) => trial));
  return [...standing].flatMap((id) =>
    trials.filter(
      (one) =>
        one.id === id &&
        one.verdict !== undefined &&
        one.arms.length === 2 &&
        one.change.setting === setting &&
        one.change.unit === unit &&
        one.change.from === from &&
        one.change.to === to,
    ),
  );
}

/** Trials without a verdict. */
export function openOnes(trials: readonly Trial[]): Trial[] {
  return trials.filter((trial) => trial.verdict === undefined);
}

/**
 * @param id the trial that was named; without one, the only open one is meant
 * @throws Refusal when it is not there, or when it is not clear which
 */
export function chooseTrial(trials: readonly Trial[], id: string | undefined, bikeFile: string): Trial {
  const named = trials.find((trial) => trial.id === id);
  if (named !== undefined) return named;
  // What to try is for the advice to say: an example of a change would be copied.
  const plan = `See what is next: earshot next --bike ${quoted(bikeFile)}`;
  const known =
    trials.length === 0
      ? `This bike has no trial yet. ${plan}`
      : `Trials of this bike: ${trials.map((trial) => trial.id).join(', ')}.`;
  if (id !== undefined) throw new Refusal(`There is no trial ${id}. ${known}`);
  const [only, ...others] = openOnes(trials);
  if (only === undefined) throw new Refusal(trials.length === 0 ? known : `No trial is open. ${plan}`);
  if (others.length > 0) throw new Refusal(`Say which trial with --trial. ${known}`);
  return only;
}

type Mistake = { readonly at: string; readonly message: string; readonly remedy: string };

export function mistakeLine({ at, message, remedy }: Mistake): string {
  return `${at}: ${message} ${remedy}`;
}

/** Every mistake of a plan or a run on a line of its own. */
export function mistakes(problems: readonly Mistake[]): Refusal {
  return new Refusal(problems.map(mistakeLine).join('\n'));
}
