/** `earshot interview`: the interview at the prompt. */
import { choice, command, maybeText, text, unless, type Given, type Here } from '../takes.ts';
import { dirname, relative, resolve } from 'node:path';
import { Left, type Leaving } from '../../console/prompter.ts';
import type { Case } from '../../casework/case.ts';
import { setText } from '../../report/gauge-text.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { leftOpen } from '../../interview/answers.ts';
import { begin, looksAt } from '../../interview/session.ts';
import { toCaseFile, type Interview } from '../../interview/state.ts';
import { openWorkspace, type Workspace, type Opened } from '../../workspace/workspace.ts';
import { keepSheet, startTrial } from '../asking/end/after-interview.ts';
import { intoLog, lastAbout, noteOf, sayOpenTrial } from '../asking/interview-log.ts';
import { bikeOf, newRecord, readOne, resumedFile } from '../asking/begun-from.ts';
import { hold, openSession, type AtEnd, type Ridden } from '../asking/interview-session.ts';
import { sayNext, stillBothers, tellLog } from '../asking/end/after-ridden.ts';
import type { Style } from '../../report/style.ts';
import type { Model } from '../../diagnosis/model.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../host/io.ts';
import { openAutosave, type CaseData, type Autosave, type Place } from '../../workspace/cases/autosave.ts';
import { setLine } from '../../workspace/bikes/set-line.ts';
import { mayBeNamed } from '../../workspace/bikes/named-sheet.ts';
import { packArgs, quoted, shellPath } from '../../host/quoted.ts';
import type { CaseRecord } from '../../workspace/cases/case-texts.ts';
import { sayHistory } from '../../workspace/bikes/say-history.ts';
import { checkSave, fileName, latestInterview, noteElsewhere } from '../../workspace/cases/autosave-path.ts';
import { autosaveFolder, caseWord } from '../../workspace/cases/kept-case.ts';

const options = {
  bike: text('file', 'bike sheet, or the id of a bike with a log'),
  log: unless('leave out what was tested on the bike before'),
  for: choice(
    'whom',
    'mechanic: short questions; rider: plain words and help; an interview you resume keeps its own',
    ['mechanic', 'rider'],
  ),
  save: text('file', 'save the answers here'),
  resume: maybeText(
    'file',
    'carry on with a saved interview, by its file or its name; without one, the last',
  ),
  id: text('name', 'name of the case'),
};

export type InterviewOptions = Given<typeof options> &
  Pick<Here, 'rules' | 'prompter'> & {
    /** a case that is begun from and is in no file; its bike is the one of the line */
    readonly from?: CaseRecord;
    /** what it advised was ridden a moment ago, and it goes on with that */
    readonly goesOn?: true;
  };

export const interviewCommand = command({
  about: 'asks you questions → what to do first, and why',
  options,
  examples: [
    ['earshot interview --bike my-bike.yaml', 'for a mechanic, with the bike at hand'],
    ['earshot interview --for rider', 'in plain words, with help'],
    ['earshot interview --resume', 'carry on where the last one stopped'],
  ],
  run: (given, { io, rules, prompter }) => interview({ ...given, rules, prompter }, io),
});

export async function interview(options: InterviewOptions, io: Io): Promise<ExitCode> {
  if (!io.stdinIsTty || !io.stdoutIsTty) {
    throw new Refusal('An interview needs a terminal. For saved answers use: earshot diagnose CASE.yaml');
  }
  const { path: resumed, own = false } = resumedFile(options, io) ?? {};
  const chosen =
    options.save !== undefined
      ? checkSave(resolve(io.cwd, options.save), options.save, resumed)
      : resumed !== undefined && own
        ? { path: resumed, how: 'replace' as const }
        : undefined;
  const record =
    options.from ?? (resumed === undefined ? newRecord(options, io) : await readOne(resumed, options, io));
  const bike = bikeOf(record, options, io);
  const workspace = await openWorkspace(io, options.rules, bike, options.log);
  const { kase, bench } = await start(options, record, bike, workspace, io);
  const audience = options.for ?? kase.interview?.for ?? 'mechanic';
  const places = [...(chosen === undefined ? [] : [chosen]), autosavePlace(kase.id, resumed, io)];
  if (chosen !== undefined) await noteElsewhere(chosen.path, io);
  const autosave = openAutosave(places, (line) => io.err(`\n${line}\n`));
  const savedIn = chosen === undefined ? undefined : dirname(chosen.path);
  const fileData = (state: Interview, folder: string): CaseData =>
    toCaseFile(
      // Beside a file of the user's own the way to the bike sheet is a short one; from anywhere else it is the whole.
      typeof state.bike === 'string' && folder === savedIn
        ? { ...state, bike: relative(folder, state.bike) }
        : state,
    );
  const session = openSession({
    workspace,
    bench,
    begun: begin(workspace.model, bench, spokenTo(kase, audience)),
    autosave,
    fileData,
  });
  const last =
    resumed !== undefined || !options.log || bike === undefined || bench.sheet === undefined
      ? undefined
      : await lastAbout(bike, bench.sheet.id, workspace, io);
  if (options.log && bike !== undefined && bench.sheet !== undefined)
    await sayOpenTrial(bench.sheet.id, `--bike ${shellPath(bike, io)}${packArgs(options.rules)}`, io);
  const prompter = await options.prompter();
  let how: Leaving | undefined;
  let end: AtEnd = { wanted: 'end' };
  try {
    end = await hold(session, workspace, prompter, audience, {
      last,
      now: io.now(),
      log: options.log,
      goesOn: options.goesOn === true,
      brokenOff: kase.interview?.begun !== undefined && kase.interview.finished !== true,
    });
  } catch (error) {
    if (!(error instanceof Left)) throw error;
    ({ how } = error);
  } finally {
    await session.keep(true);
    // Where the terminal is gone, closing the prompter ends the process.
    if (options.log && bike !== undefined && bench.sheet !== undefined && autosave.path !== undefined)
      await intoLog(noteOf(session.state), bench.sheet.id, autosave.path, io);
    await prompter.close();
  }
  const { wanted, change, ridden } = end;
  if (ridden !== undefined && bike !== undefined)
    return await goOn(
      session.state,
      ridden,
      { ...options, bike, path: autosave.path, model: workspace.model },
      prompter.style,
      io,
    );
  const code = await farewell(session.state, autosave, how, { ...options, wanted, workspace }, io);
  const styled = { ...options, style: prompter.style };
  if (wanted === 'trial' || wanted === 'less')
    return await startTrial(session.state, autosave, wanted === 'less' ? { ...styled, change } : styled, io);
  if (wanted === 'sheet') return await keepSheet(session.state, autosave, styled, io);
  return wanted === 'sheet-trial'
    ? await keepSheet(session.state, autosave, { ...styled, change }, io)
    : code;
}

/** The step that was advised was ridden: that is written down, and whatever is left is gone on with. */
async function goOn(
  state: Interview,
  ridden: Ridden,
  options: InterviewOptions & {
    readonly bike: string;
    readonly path: string | undefined;
    readonly model: Model;
  },
  style: Style,
  io: Io,
): Promise<ExitCode> {
  const { rules, prompter, log, path, save, model } = options;
  const bike = relative(io.cwd, options.bike);
  await tellLog(state, ridden, { bike, style }, io);
  const on = { rules, prompter, log, for: state.for ?? 'mechanic', id: undefined } as const;
  if (ridden.outcome !== 'better' && path !== undefined)
    return await interview({ ...on, bike: undefined, save, resume: path, goesOn: true }, io);
  if (ridden.outcome === 'better' && !ridden.left) {
    await sayNext(bike, { rules, style }, io);
    return EXIT.done;
  }
  const isPast = looksAt(model, { change: { changes: [ridden.change] }, kept: ridden.outcome === 'better' });
  const steps = state.steps.filter(({ question }) => !isPast(question));
  const from = stillBothers(toCaseFile({ ...state, steps }), io);
  return await interview({ ...on, bike, save: undefined, resume: undefined, from }, io);
}

/** Says where the answers are; with no place at all, prints them, so that nothing is lost. */
async function farewell(
  state: Interview,
  autosave: Autosave,
  how: Leaving | undefined,
  options: InterviewOptions & { readonly wanted: AtEnd['wanted']; readonly workspace: Workspace },
  io: Io,
): Promise<ExitCode> {
  const packs = options.rules.map((pack) => ` --rules ${quoted(pack)}`).join('');
  const noLog = !options.log && state.bike !== undefined ? ' --no-log' : '';
  const { path } = autosave;
  const shown = path === undefined ? '' : shellPath(path, io);
  const word = path === undefined ? '' : caseWord(path, io);
  if (state.ended === 'danger') io.err('\nSTOP: do not ride this bike until it is fixed.\n');
  const count =
    state.steps.length === 0 && state.said !== undefined
      ? 'the words'
      : `${state.steps.length} ${state.steps.length === 1 ? 'answer' : 'answers'}`;
  if (path === undefined && (state.steps.length > 0 || state.said !== undefined)) {
    const { yamlText } = await import('../../form/yaml-text.ts');
    io.err(`\nNothing could be saved. Copy the case from here:\n\n${yamlText(toCaseFile(state))}`);
  } else if (path === undefined) io.err('\nNothing was answered, so nothing was saved.\n');
  else if (how === undefined) {
    io.err(
      `\nSaved in ${shown}\nAll the details: earshot diagnose ${word} --full${sheetArg(state, path, io)}${noLog}${packs}\n`,
    );
    if (typeof state.bike === 'string') sayMeasured(state, relative(io.cwd, state.bike), options, io);
    // A bike that must not be ridden has nothing to try.
    if (
      typeof state.bike === 'string' &&
      state.ended !== 'danger' &&
      options.wanted !== 'trial' &&
      options.wanted !== 'less'
    )
      io.err(`${whatNext(shellPath(state.bike, io), path, word, io)}${packs}\n`);
    // Without a bike that is known, what was left open is found again by the answers alone.
    if (
      state.bike === undefined &&
      state.ended !== 'danger' &&
      options.wanted === 'end' &&
      leftOpen(state.steps).length > 0
    )
      io.err(`When you know more: ${carryOn(path, word, io)}${packs}\n`);
  } else io.err(`\nSaved ${count} in ${shown}\nCarry on: ${carryOn(path, word, io)}${packs}\n`);
  if (how === undefined) return autosave.elsewhere ? EXIT.some : EXIT.done;
  return how === 'end' ? EXIT.some : EXIT.interrupted;
}

/** What was measured is only in the case: the line that writes it on the sheet. */
function sayMeasured(
  { steps }: Interview,
  bike: string,
  {
    workspace: { rules },
    rules: packs,
  }: { readonly workspace: Workspace; readonly rules: readonly string[] },
  io: Io,
): void {
  const told = steps.flatMap(({ question: id, measured }) => {
    const { gauge, end } = rules.questions.find((q) => q.id === id)!;
    return measured === undefined || gauge === undefined || end === undefined
      ? []
      : [setText(gauge.reads, end, measured)];
  });
  if (told.length > 0) io.err(`What you measured, for the sheet: ${setLine(told, bike, packs)}\n`);
}

/** A file of the user's own is gone on from as it is, unless it is told to be saved there; so the command tells it. */
function carryOn(path: string, word: string, io: Io): string {
  const latest = latestInterview(io);
  if (latest?.own === false && latest.path === path) return 'earshot interview --resume';
  const own = dirname(path) === autosaveFolder(io) ? '' : ` --save ${word}`;
  return `earshot interview --resume ${word}${own}`;
}

/** A case may not open a sheet from anywhere; one that the line names as well is opened. */
function sheetArg({ bike }: Interview, path: string, io: Io): string {
  if (typeof bike !== 'string') return '';
  const folder = dirname(path);
  try {
    mayBeNamed(bike, folder, undefined, { ...io, bikes: [] });
    return '';
  } catch {
    return ` --bike ${shellPath(resolve(folder, bike), io)}`;
  }
}

/** The case with whom it is for, so that it goes on in the same words. */
function spokenTo(kase: Case, audience: Audience): Case {
  const { for: _, ...kept } = kase.interview ?? { about: [], keepAsking: false };
  if (audience === 'rider') return { ...kase, interview: { ...kept, for: audience } };
  return kase.interview === undefined ? kase : { ...kase, interview: kept };
}

/** Only what is kept with the logs is found again by itself; a case in a file of the user's own is named. */
function whatNext(bike: string, path: string, shown: string, io: Io): string {
  return dirname(path) === autosaveFolder(io)
    ? `Next: earshot next --bike ${bike}`
    : `Test the first change: earshot trial plan --bike ${bike} --case ${shown}`;
}

/** An interview that goes on from one kept here stays in its file; any other gets a file of its own. */
function autosavePlace(id: string, resumed: string | undefined, io: Io): Place {
  const folder = autosaveFolder(io);
  return resumed !== undefined && dirname(resumed) === folder
    ? { path: resumed, how: 'replace', own: true }
    : { path: resolve(folder, `${fileName(id)}.yaml`), how: 'numbered', own: true };
}

/** The case to begin from, with the full path of its bike sheet, and the bench of that bike. */
async function start(
  { id }: InterviewOptions,
  record: CaseRecord,
  bike: string | undefined,
  workspace: Workspace,
  io: Io,
): Promise<Opened> {
  const opened = await workspace.open(record);
  if ('faults' in opened) throw new Refusal(opened.faults.join('\n'));
  for (const warning of opened.warnings) io.err(`${warning}\n`);
  sayHistory(opened.history, io);
  return {
    ...opened,
    kase: {
      ...opened.kase,
      ...(bike === undefined ? {} : { bike }),
      ...(id === undefined ? {} : { id }),
    },
  };
}
