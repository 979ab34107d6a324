/** What an interview leads to at its end: the trial of what comes first, or a sheet of the bike it told of. */
import { relative, resolve } from 'node:path';
import { withValueAt, type Draft } from '../../../bike/form/draft.ts';
import { draftOf } from '../../../bike/form/said.ts';
import { dimensionOf } from '../../../bike/units.ts';
import { Left } from '../../../console/prompter.ts';
import { toCaseFile, type Interview } from '../../../interview/state.ts';
import type { Style } from '../../../report/style.ts';
import type { InterviewOptions } from '../../commands/interview.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../../host/io.ts';
import type { Autosave } from '../../../workspace/cases/autosave.ts';
import { mayBeNew } from '../../../disk/write-new.ts';
import { intoLog, noteOf } from '../interview-log.ts';
import { quoted } from '../../../host/quoted.ts';
import { autosaveFolder, caseWord } from '../../../workspace/cases/kept-case.ts';
import { fileName } from '../../../workspace/cases/autosave-path.ts';

/**
 * Makes a sheet of the bike that was told of, asking what a sheet cannot be without.
 * @param change the setting that comes first: where its knob stands is asked too, and its trial is planned
 */
export async function keepSheet(
  state: Interview,
  autosave: Autosave,
  options: InterviewOptions & { readonly change?: string | undefined; readonly style: Style },
  io: Io,
): Promise<ExitCode> {
  const { has, ...told } = state;
  const { path } = autosave;
  const { bikeNew } = await import('../../commands/bike/new.ts');
  const name = await askName(options, io);
  if (name === undefined) {
    io.err('No sheet was made. Later: earshot bike new NAME.yaml --case CASE.yaml\n');
    return EXIT.done;
  }
  const { id, file } = name;
  const { change } = options;
  const code = await bikeNew(
    {
      file,
      id,
      set: [],
      force: false,
      all: false,
      begun: inToldUnits(draftOf(has!.bike, has!.raw), state),
      ...(change === undefined ? {} : { count: [change] }),
      prompter: options.prompter,
    },
    io,
  );
  if (code !== EXIT.done || path === undefined) return code;
  const bike = resolve(io.cwd, file);
  try {
    if (change !== undefined) return await planTrial(bike, path, options, io);
    io.err(
      // A bike that must not be ridden has nothing to try.
      state.ended === 'danger'
        ? `Next: earshot next --bike ${quoted(file)}\n`
        : `Test the first change: earshot trial plan --bike ${quoted(file)} --case ${caseWord(path, io)}\n`,
    );
    return code;
  } finally {
    // From now on it is an interview about that bike, and the next one can begin from it.
    const { bike: _, ...rest } = told;
    await autosave.keep((folder) => toCaseFile({ ...rest, bike: besides(folder, bike, io) }), true);
    if (options.log && autosave.path !== undefined) await intoLog(noteOf(state), id, autosave.path, io);
  }
}

/** @returns undefined where none is wanted */
async function askName(
  { prompter: open }: InterviewOptions,
  io: Io,
): Promise<{ readonly id: string; readonly file: string } | undefined> {
  const prompter = await open();
  try {
    for (;;) {
      const typed = (
        await prompter.text(
          'Short name for the bike (it becomes the file NAME.yaml, here; Return: no sheet):',
        )
      ).trim();
      if (typed === '') return undefined;
      const id = fileName(typed.toLowerCase());
      const file = `${id}.yaml`;
      try {
        await mayBeNew(file, false, io);
        return { id, file };
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        prompter.say(`  ${file} is there already, or cannot be written here. Type another name.\n`);
      }
    }
  } catch (error) {
    if (!(error instanceof Left)) throw error;
    return undefined;
  } finally {
    await prompter.close();
  }
}

/** In the units in which something was measured in the interview; what nobody told stays open. */
function inToldUnits(draft: Draft, { steps }: Interview): Draft {
  return steps.reduce((to, { measured }) => {
    const dimension = measured === undefined ? undefined : dimensionOf(measured.unit);
    return dimension === undefined ? to : withValueAt(to, `units.${dimension}`, measured!.unit);
  }, draft);
}

/**
 * Plans the trial of what comes first, as `earshot trial plan` does.
 * @param change another one to try in its place
 */
export async function startTrial(
  { bike }: Interview,
  { path }: Autosave,
  { change, ...options }: InterviewOptions & { readonly change?: string | undefined; readonly style: Style },
  io: Io,
): Promise<ExitCode> {
  if (typeof bike !== 'string' || path === undefined)
    throw new Refusal('The trial needs the answers in a file, and they could not be saved.');
  return await planTrial(bike, path, options, io, change);
}

async function planTrial(
  bike: string,
  path: string,
  { rules, prompter, style }: InterviewOptions & { readonly style: Style },
  io: Io,
  change?: string,
): Promise<ExitCode> {
  const { trialPlan } = await import('../../commands/trial/plan.ts');
  const near = (file: string): string => {
    const way = relative(io.cwd, file);
    return way.startsWith('..') ? file : way;
  };
  return await trialPlan(
    {
      bike: near(bike),
      case: near(path),
      ...(change === undefined ? {} : { change }),
      bothWays: false,
      long: false,
      paper: false,
      save: true,
      rules,
      format: 'text',
      style,
      prompter,
      told: true,
    },
    io,
  );
}

/** The way to the sheet: short beside a file of the user's own, whole from the folder of the program. */
function besides(folder: string, bike: string, io: Io): string {
  return folder === autosaveFolder(io) ? bike : relative(folder, bike);
}
