/** `earshot interview`: the interview at the prompt. */
import { dirname, relative, resolve } from 'node:path';
import type { Bench } from '../advice/bench.ts';
import type { Case } from '../casework/case.ts';
import { Left, type Leaving, type Prompter } from '../console/prompter.ts';
import { begin, toCaseFile, type Interview } from '../interview/session.ts';
import { openDesk, type Desk, type Opened } from './desk.ts';
import { hold, openSession } from './interview-session.ts';
import type { Audience } from './interview-prompts.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { openKeeper, type CaseData, type Keeper, type Place } from './keeper.ts';
import { readRecords } from './records.ts';
import { autosaveFolder, checkSave, fileName, latestAutosave } from './save-place.ts';

export interface InterviewOptions {
  readonly audience: Audience;
  readonly rules: readonly string[];
  readonly bike?: string | undefined;
  /** whether earlier trials in the log of `bike` count; default true */
  readonly log?: boolean;
  readonly save?: string | undefined;
  /** a case file; true for the interview kept last */
  readonly resume?: string | true | undefined;
  readonly id?: string | undefined;
  /** makes the prompter; tests hand in their own */
  readonly prompter: () => Promise<Prompter>;
}

export async function interview(options: InterviewOptions, io: Io): Promise<ExitCode> {
  if (!io.stdinIsTty || !io.stdoutIsTty) {
    throw new Refusal(
      'An interview needs a terminal to ask in. For saved answers use: earshot diagnose CASE.yaml',
    );
  }
  const resumed = resumedFile(options, io);
  const chosen =
    options.save === undefined ? undefined : checkSave(resolve(io.cwd, options.save), options.save, resumed);
  const desk = await openDesk(io, options.rules, options.bike, options.log ?? true);
  const { kase, bench } = await start(options, resumed, desk, io);
  const places = [...(chosen === undefined ? [] : [chosen]), autosavePlace(kase.id, resumed, io)];
  const keeper = openKeeper(places, (line) => io.err(`\n${line}\n`));
  const savedIn = chosen === undefined ? undefined : dirname(chosen.path);
  const fileData = (state: Interview, folder: string): CaseData =>
    toCaseFile(
      // Beside a file of the user's own the way to the bike sheet is a short one; from anywhere else it is the whole.
      typeof state.bike === 'string' && folder === savedIn
        ? { ...state, bike: relative(folder, state.bike) }
        : state,
    );
  const session = openSession({ desk, bench, begun: begin(desk.model, bench, kase), keeper, fileData });
  const prompter = await options.prompter();
  let how: Leaving | undefined;
  try {
    await hold(session, desk, bench, prompter, options.audience);
  } catch (error) {
    if (!(error instanceof Left)) throw error;
    ({ how } = error);
  } finally {
    await session.keep(true);
    await prompter.close();
  }
  return farewell(session.state, keeper, how, options, io);
}

/** Says where the answers are; with no place at all, prints them, so that nothing is lost. */
async function farewell(
  state: Interview,
  keeper: Keeper,
  how: Leaving | undefined,
  options: InterviewOptions,
  io: Io,
): Promise<ExitCode> {
  const flags = [
    ...options.rules.map((pack) => ` --rules ${quoted(pack)}`),
    ...(options.audience === 'rider' ? [' --for rider'] : []),
  ].join('');
  const { path } = keeper;
  const shown = path === undefined ? '' : shellPath(path, io);
  const count = `${state.steps.length} ${state.steps.length === 1 ? 'answer' : 'answers'}`;
  if (path === undefined && (state.steps.length > 0 || state.said !== undefined)) {
    const { stringify } = await import('yaml');
    io.err(`\nNo place could be written. Copy the case from here:\n\n${stringify(toCaseFile(state))}`);
  } else if (path === undefined) io.err('\nNothing was answered, so nothing was kept.\n');
  else if (how === undefined)
    io.err(`\nThe answers are in ${shown}\nAll of it: earshot diagnose ${shown} --full\n`);
  else io.err(`\nKept ${count} in ${shown}\nGo on with: earshot interview --resume ${shown}${flags}\n`);
  if (how === undefined) return keeper.elsewhere ? EXIT.some : EXIT.done;
  return how === 'end' ? EXIT.some : EXIT.interrupted;
}

/** A path as a shell takes it, short where it can be. */
function shellPath(path: string, io: Io): string {
  const near = relative(io.cwd, path);
  if (!near.startsWith('..')) return quoted(near);
  const home = io.env['HOME'];
  return home !== undefined && path.startsWith(`${home}/`)
    ? `~/${quoted(path.slice(home.length + 1))}`
    : quoted(path);
}

function quoted(path: string): string {
  return /^[\w@%+=:,./~-]+$/.test(path) ? path : `'${path.replaceAll("'", String.raw`'\''`)}'`;
}

/** An interview that goes on from one kept here stays in its file; any other gets a file of its own. */
function autosavePlace(id: string, resumed: string | undefined, io: Io): Place {
  const folder = autosaveFolder(io);
  return resumed !== undefined && dirname(resumed) === folder
    ? { path: resumed, how: 'replace' }
    : { path: resolve(folder, `${fileName(id)}.yaml`), how: 'numbered' };
}

function resumedFile({ resume }: InterviewOptions, io: Io): string | undefined {
  if (resume === undefined) return undefined;
  if (resume !== true) return resolve(io.cwd, resume);
  const latest = latestAutosave(io);
  if (latest === undefined)
    throw new Refusal('No interview was kept yet. Name a case file: earshot interview --resume CASE.yaml');
  io.err(`Going on with ${latest}\n`);
  return latest;
}

/** The case to begin from, with the full path of its bike sheet, and the bench of that bike. */
async function start(
  options: InterviewOptions,
  resumed: string | undefined,
  desk: Desk,
  io: Io,
): Promise<{ kase: Case; bench: Bench }> {
  const given = options.bike === undefined ? {} : { bike: resolve(io.cwd, options.bike) };
  if (resumed === undefined) {
    const id = options.id ?? `interview-${stamp(io.now())}`;
    const { kase, bench } = accept(
      await desk.open({ name: id, folder: io.cwd, data: { case: 1, id, ...given } }),
      io,
    );
    return { kase, bench };
  }
  const shown = typeof options.resume === 'string' ? options.resume : resumed;
  const cases: { kase: Case; bench: Bench }[] = [];
  for await (const record of readRecords([resumed], io)) {
    if (cases.length > 0)
      throw new Refusal(`${shown}: there is more than one case in this file. An interview goes on with one.`);
    const { kase, bench } = accept(await desk.open(record), io);
    if (kase.bike !== undefined && options.bike !== undefined)
      io.err(`${shown}: the case has a bike of its own; --bike ${options.bike} is not used.\n`);
    const bike =
      typeof kase.bike === 'string'
        ? { bike: resolve(record.folder, kase.bike) }
        : kase.bike === undefined
          ? given
          : {};
    cases.push({
      kase: { ...kase, ...bike, ...(options.id === undefined ? {} : { id: options.id }) },
      bench,
    });
  }
  if (cases[0] === undefined) throw new Refusal(`${shown}: there is no case in this file.`);
  return cases[0];
}

function accept(opened: Opened | { readonly faults: readonly string[] }, io: Io): Opened {
  if ('faults' in opened) throw new Refusal(opened.faults.join('\n'));
  for (const warning of opened.warnings) io.err(`${warning}\n`);
  if (opened.history.length > 0)
    io.err(
      `Earlier trials on this bike count (--no-log leaves them out):\n  - ${opened.history.join('\n  - ')}\n`,
    );
  return opened;
}

/** The mechanic's own clock, to the second, as part of a name. */
function stamp(now: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  const day = `${now.getFullYear()}${two(now.getMonth() + 1)}${two(now.getDate())}`;
  return `${day}-${two(now.getHours())}${two(now.getMinutes())}${two(now.getSeconds())}`;
}
