/** `earshot trial record`: one ridden run into the log, and what to set for the next. */
import { Left, type Prompter } from '../console/prompter.ts';
import { runLine, setLine } from '../report/trial-text.ts';
import { penSheet } from '../trials/pen-sheet.ts';
import { addRun, checkRun, dropRun } from '../trials/record.ts';
import { runsLeft } from '../trials/sequence.ts';
import type { RiddenRun, Trial } from '../trials/trial.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { openToWrite, refusing } from './open-bike.ts';
import { quoted } from './quoted.ts';
import { meantRun, readRatings, readTime } from './run-options.ts';
import { chooseTrial, mistakes, trialNow, trialsOf } from './trial-shelf.ts';

export interface TrialRecordOptions {
  readonly bike: string;
  readonly trial?: string | undefined;
  /** an arm, or the number of a run on the sheet */
  readonly run?: string | undefined;
  /** `grip=5` each; with none, the prompt asks */
  readonly rating: readonly string[];
  readonly time?: string | undefined;
  readonly note?: string | undefined;
  /** take the last run off again */
  readonly dropLast: boolean;
  readonly prompter: () => Promise<Prompter>;
}

export async function trialRecord(options: TrialRecordOptions, io: Io): Promise<ExitCode> {
  const bike = await openToWrite(options.bike, io);
  return await refusing(async () => {
    const trial = chooseTrial(await trialsOf(bike, io), options.trial, options.bike);
    const at = `--bike ${quoted(options.bike)} --trial ${quoted(trial.id)}`;
    const write = options.dropLast ? dropped : await recorded(trial, options, io);
    if (write === undefined) {
      io.err(`Nothing was written down. By options: earshot trial record ${at} --rating overall=5\n`);
      return EXIT.interrupted;
    }
    let written: Written | undefined;
    await bike.log.saveTrial(trial.id, (papers) => ({
      ...(written = write(trialNow(trial.id, papers))).trial,
    }));
    await io.out(`${written!.said}\n${whatNext(written!.trial, at)}\n`);
    return EXIT.done;
  });
}

/** What is done to the trial as it stands at the moment of writing: others may have recorded runs in the meantime. */
type Writing = (now: Trial) => Written;

interface Written {
  readonly trial: Trial;
  readonly said: string;
}

function dropped(trial: Trial): Written {
  if (trial.verdict !== undefined || trial.ridden.length === 0)
    throw new Refusal(
      `Trial ${trial.id} ${trial.verdict === undefined ? 'has no run' : 'is closed'}: nothing to take off.`,
    );
  return { trial: dropRun(trial), said: `Run ${trial.ridden.length} was taken off again.` };
}

/** @returns undefined when the user left the prompt */
async function recorded(trial: Trial, options: TrialRecordOptions, io: Io): Promise<Writing | undefined> {
  const asked = options.rating.length === 0 && trial.verdict === undefined && options.run === undefined;
  if (asked && io.stdinIsTty && io.stdoutIsTty) {
    const run = await atPrompt(trial, options.prompter);
    if (run === undefined) return undefined;
    const at = io.now().toISOString();
    return (now) => add(now, { ...run, at });
  }
  const seconds = readTime(options.time);
  const rated = {
    ratings: readRatings(options.rating),
    ...(seconds === undefined ? {} : { seconds }),
    at: io.now().toISOString(),
    ...(options.note === undefined ? {} : { note: options.note }),
  };
  const meant = meantRun(trial, options.run);
  return (now) => {
    const { arm, instead } = meantRun(now, options.run);
    if (instead !== undefined && meant.instead === undefined)
      throw new Refusal(
        `Run ${options.run} was written down at the same moment by somebody else. Nothing was written: look at the sheet, and do it again.`,
        EXIT.some,
      );
    const run: RiddenRun = { arm, ...rated };
    return instead === undefined ? add(now, run) : putRight(now, instead, run);
  };
}

async function atPrompt(
  trial: Trial,
  open: TrialRecordOptions['prompter'],
): Promise<Omit<RiddenRun, 'at'> | undefined> {
  const { askRun } = await import('./run-prompts.ts');
  const prompter = await open();
  try {
    return await askRun(trial, prompter);
  } catch (error) {
    if (error instanceof Left) return undefined;
    throw error;
  } finally {
    await prompter.close();
  }
}

function add(trial: Trial, run: RiddenRun): Written {
  const added = addRun(trial, run);
  if (!added.ok) throw mistakes(added.problems);
  return { trial: added.value, said: runLine(trial, trial.ridden.length + 1, run) };
}

/** A slip of the pen: the same run again, as it was. */
function putRight(trial: Trial, index: number, run: RiddenRun): Written {
  if (trial.verdict !== undefined)
    throw new Refusal(
      `Trial ${trial.id} is closed with the verdict "${trial.verdict}": its runs stand as they are.`,
    );
  const problems = checkRun(trial, run);
  if (problems.length > 0) throw mistakes(problems);
  const before = trial.ridden[index]!;
  const kept = before.at === undefined ? run : { ...run, at: before.at };
  return {
    trial: { ...trial, ridden: trial.ridden.with(index, kept) },
    said: `${runLine(trial, index + 1, run)} This takes the place of what was written before.`,
  };
}

/** The setting of the next run, or that it is time to judge. */
function whatNext(trial: Trial, at: string): string {
  const left = runsLeft(trial);
  if (left === 0) return `All planned runs are ridden. Judge it: earshot trial judge ${at}`;
  const [row] = penSheet(trial).rows;
  return `${setLine(trial, row!)}\n${left === 1 ? 'It is the last one' : `${left} runs are left`} before it can be judged.`;
}
