/** `earshot trial record`: one ridden run into the log, and what to set for the next. */
import { command, flag, onBike, text, texts, type Given, type Here } from '../../takes.ts';
import { runLine, setLine, worstLines } from '../../../report/bike/trial-text.ts';
import { MOST_NAME, printable } from '../../../report/foreign-text.ts';
import { foldText } from '../../../report/wrap.ts';
import { penRows } from '../../../trials/pen-sheet.ts';
import {
  doubtfulTime,
  addRun,
  checkRun,
  closedProblem,
  dropRun,
  keepBegun,
  leaveOut,
  ratedWorst,
} from '../../../trials/record.ts';
import { runsLeft } from '../../../trials/sequence.ts';
import type { BegunRun, RiddenRun, Trial } from '../../../trials/trial.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../../host/io.ts';
import { openToWrite, refusing, type OpenBike } from '../../../workspace/bikes/open-bike.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import { meantRun, readRun } from './run-options.ts';
import { notRidden, stopLogged } from './not-ridden.ts';
import type { AskedRun } from '../../asking/run-prompts.ts';
import { chooseTrial, mistakes, openOnes, trialNow, trialsOf } from '../../../workspace/bikes/trial-shelf.ts';

const options = {
  bike: onBike(),
  trial: text('id', 'which trial; not needed while only one is open'),
  run: text('run', 'reference, plus or minus; or the number of the run on the sheet'),
  rating: texts('feeling=1..7', 'one rating, such as grip=5 (repeatable)'),
  time: text('time', 'time of the run, 61.2 or 1:01.2'),
  note: text('text', 'anything worth keeping'),
  hidden: flag('the rider does not know how the bike is set for each run'),
  known: flag('the rider knows; the trial counts for less'),
  dropLast: flag('delete the last run'),
};
export type TrialRecordOptions = Given<typeof options> & Pick<Here, 'prompter' | 'rules' | 'style'>;

export const trialRecordCommand = command({
  about: 'write down a run: at the prompt, or with --rating',
  options,
  examples: [
    ['earshot trial record --bike my-bike.yaml', 'asked at the prompt'],
    ['earshot trial record --bike my-bike.yaml --run plus --rating grip=5 --time 61.2', 'one run by options'],
  ],
  run: (given, { io, prompter, rules, style }) => trialRecord({ ...given, prompter, rules, style }, io),
});

export async function trialRecord(options: TrialRecordOptions, io: Io): Promise<ExitCode> {
  if (options.hidden && options.known)
    throw new Refusal('Give --hidden or --known, not both: either the rider knows the settings, or not.');
  const bike = await openToWrite(options.bike, io);
  return await refusing(async () => {
    const trials = await trialsOf(bike, io);
    const trial = chooseTrial(trials, options.trial, options.bike);
    // While no other is open it need not be named.
    const alone = openOnes(trials).length === 1 && trial.verdict === undefined;
    const at = `--bike ${quoted(options.bike)}${alone ? '' : ` --trial ${quoted(trial.id)}`}${packArgs(io.packs)}`;
    const asked = options.dropLast ? { write: dropped } : await recorded(trial, options, at, io);
    if ('begun' in asked) return await leave(asked.begun, trial, bike, at, io);
    const { write } = asked;
    let written: Written | undefined;
    await bike.log.saveTrial(trial.id, (papers) => ({
      ...(written = write(trialNow(trial.id, papers))).trial,
    }));
    const stop = await stopLogged(bike, options.bike, io);
    const next = stop === undefined ? whatNext(written!.trial, at) : notRidden(stop, options.bike, io.packs);
    const wrong = written!.added
      ? `\nWrong${options.note === undefined ? '' : ', or spoiled'}? Delete it:\n  earshot trial record ${at} --drop-last`
      : '';
    const put = async (text: string): Promise<void> => void (await io.out(`${foldText(text, io.width)}\n`));
    const ended = 'prompted' in asked && stop === undefined && runsLeft(written!.trial) === 0;
    if (!ended) await put(`${written!.said}${wrong}\n${next}`);
    else {
      const worst = worstOf(written!.trial, at);
      await put(`${written!.said}${wrong}${worst === '' ? '' : `\n${worst.trimEnd()}`}`);
      const end = await lastRun(written!.trial, options, io);
      if (end === 'left') await put(next.slice(worst.length));
      if (end === 'more') await put(`${setNext(written!.trial)}\nAfter it:\n  earshot trial record ${at}`);
    }
    return EXIT.done;
  });
}

/** What is done to the trial as it stands at the moment of writing: others may have recorded runs in the meantime. */
type Writing = (now: Trial) => Written;

interface Written {
  readonly trial: Trial;
  readonly said: string;
  /** a run more, which can be deleted again */
  readonly added?: true;
}

function dropped(trial: Trial): Written {
  const { verdict, begun } = trial;
  const runs = trial.ridden.length;
  if (verdict !== undefined || (runs === 0 && begun === undefined))
    throw new Refusal(
      `Trial ${trial.id} ${verdict === undefined ? 'has no run' : 'is closed'}: nothing to delete.`,
    );
  const off = [
    ...(runs === 0 ? [] : [`run ${runs}`]),
    ...(begun === undefined ? [] : [`what was entered for run ${runs + 1}`]),
  ];
  return { trial: dropRun(trial), said: `Deleted: ${off.join(', and ')}.` };
}

/** Ctrl-C at the prompt: what was rated so far is kept, and the next asking goes on from there. */
async function leave(
  begun: BegunRun,
  trial: Trial,
  { log }: OpenBike,
  at: string,
  io: Io,
): Promise<ExitCode> {
  const again = `earshot trial record ${at}`;
  if (begun.arm === undefined && begun.hidden === undefined) {
    io.err(`Nothing was recorded. By options: ${again} --rating ${trial.feelings[0]!.id}=5\n`);
    return EXIT.interrupted;
  }
  await log.saveTrial(trial.id, (papers) => ({ ...keepBegun(trialNow(trial.id, papers), begun) }));
  const worst = ratedWorst({ ridden: [], begun }) ? worstLines(`earshot trial judge ${at} --close`) : '';
  io.err(`${worst}Kept what you entered. Carry on: ${again}\n`);
  return EXIT.interrupted;
}

/**
 * @param at names bike and trial on a command line
 * @returns what to write, or what was told until the user left the prompt
 */
async function recorded(
  trial: Trial,
  options: TrialRecordOptions,
  at: string,
  io: Io,
): Promise<{ readonly write: Writing; readonly prompted?: true } | { readonly begun: BegunRun }> {
  const told = options.hidden ? true : options.known ? false : trial.hidden;
  const asked = options.rating.length === 0 && trial.verdict === undefined && options.run === undefined;
  if (asked && io.stdinIsTty && io.stdoutIsTty) {
    const { run, begun, spoiled } = await atPrompt(withHidden(trial, told), options.prompter);
    if (run === undefined) return { begun };
    if (spoiled === true)
      return { write: (now) => leftOut(withHidden(now, begun.hidden ?? told), run), prompted: true };
    const ridden = { ...run, at: io.now().toISOString() };
    return { write: (now) => add(withHidden(now, begun.hidden ?? told), ridden), prompted: true };
  }
  if (asked && options.time === undefined && options.note === undefined)
    throw new Refusal(
      `To be asked, a terminal is needed. By options: earshot trial record ${at} ${marksOf(trial)}`,
    );
  const { meant, ratings, seconds } = readRun(trial, options);
  const rated = {
    ratings,
    ...(seconds === undefined ? {} : { seconds }),
    at: io.now().toISOString(),
    ...(options.note === undefined ? {} : { note: options.note }),
  };
  const long = seconds === undefined ? undefined : doubtfulTime(without(trial, meant.instead), seconds);
  if (long !== undefined) io.err(`Check the time: ${options.time} is ${long}.\n`);
  const write = (now: Trial): Written => {
    const { arm, instead } = meantRun(now, options.run);
    if (instead !== undefined && meant.instead === undefined)
      throw new Refusal(
        `Somebody else just recorded run ${options.run}. Nothing was written: look at the sheet, and do it again.`,
        EXIT.some,
      );
    const run: RiddenRun = { arm, ...rated };
    const open = withHidden(now, told);
    return instead === undefined ? add(open, run) : putRight(open, instead, run);
  };
  return { write };
}

/** All marks of a run as options, to be filled in. */
function marksOf({ feelings }: Trial): string {
  return feelings.map(({ id }) => `--rating ${id}=N`).join(' ');
}

/** The trial without the run that is written again. */
function without(trial: Trial, instead: number | undefined): Trial {
  return { ...trial, ridden: trial.ridden.filter((_, i) => i !== instead) };
}

/** What is said of the whole trial, unless nobody said anything. */
function withHidden(trial: Trial, hidden: boolean | undefined): Trial {
  return hidden === undefined ? trial : { ...trial, hidden };
}

/** All runs are in: the verdict, and on its yes what it says is written down, and what to do now is told. */
async function lastRun(
  trial: Trial,
  options: TrialRecordOptions,
  io: Io,
): Promise<'written' | 'left' | 'more'> {
  const { endTrial } = await import('./end-trial.ts');
  const { rules, prompter, style, bike } = options;
  return await endTrial(trial, { file: bike, rules, prompter, style: await style() }, io);
}

async function atPrompt(trial: Trial, open: TrialRecordOptions['prompter']): Promise<AskedRun> {
  const { askRun } = await import('../../asking/run-prompts.ts');
  const prompter = await open();
  try {
    return await askRun(trial, prompter);
  } finally {
    await prompter.close();
  }
}

function add(trial: Trial, run: RiddenRun): Written {
  const added = addRun(trial, run);
  if (!added.ok) throw mistakes(added.problems);
  return {
    trial: added.value,
    said: `${runLine(trial, trial.ridden.length + 1, run)}`,
    added: true,
  };
}

/** A run that something spoiled: the next one is that run again. */
function leftOut(trial: Trial, { note }: Pick<RiddenRun, 'note'>): Written {
  if (trial.verdict !== undefined) throw mistakes(closedProblem(trial));
  return {
    trial: leaveOut(trial, note!),
    said: `Run ${trial.ridden.length + 1} is left out (${printable(note!, MOST_NAME)}). Ride it again.`,
  };
}

/** A slip of the pen: the same run again, as it was. */
function putRight(trial: Trial, index: number, run: RiddenRun): Written {
  if (trial.verdict !== undefined)
    throw new Refusal(
      `Trial ${trial.id} is closed with the verdict "${trial.verdict}": its runs cannot be changed.`,
    );
  const problems = checkRun(trial, run);
  if (problems.length > 0) throw mistakes(problems);
  const before = trial.ridden[index]!;
  const kept = before.at === undefined ? run : { ...run, at: before.at };
  return {
    trial: { ...trial, ridden: trial.ridden.with(index, kept) },
    said: `${runLine(trial, index + 1, run)} It replaces the earlier entry.`,
  };
}

/** What a run asks for that had the worst mark with the step in; empty for any other. */
function worstOf(trial: Trial, at: string): string {
  return ratedWorst(trial) ? worstLines(`earshot trial judge ${at} --close`) : '';
}

/** The setting of the next run, also where all that were planned are in. */
function setNext(trial: Trial): string {
  return setLine(trial, penRows(trial, 1)[0]!);
}

/** The setting of the next run, or that it is time to judge; what a bad run asks for stands in front of either. */
function whatNext(trial: Trial, at: string): string {
  const judging = `earshot trial judge ${at}`;
  const worst = worstOf(trial, at);
  const left = runsLeft(trial);
  if (left === 0) return `${worst}All runs are done. Get the verdict:\n  ${judging}`;
  const before = `${left === 1 ? 'Last run' : `${left} runs left`} before the verdict.`;
  return `${worst}${setNext(trial)}\n${before} After it:\n  earshot trial record ${at}`;
}
