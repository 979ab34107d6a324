/** `earshot interview`: the interview at the prompt. */
import { textReport } from '../report/text.ts';
import { ridersListText } from '../report/riders-list.ts';
import { toResult } from '../report/result.ts';
import {
  begin,
  look,
  ridersList,
  step,
  toCase,
  toCaseFile,
  type Effect,
  type Event,
  type Interview,
} from '../interview/session.ts';
import { consult } from '../casework/consult.ts';
import { Left, type Prompter } from '../console/prompter.ts';
import { openDesk, type Desk } from './desk.ts';
import { askOpening, askQuestion } from './interview-prompts.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { readRecords } from './records.ts';
import { autosavePath, saveCase } from './save-case.ts';
import type { Bench } from '../advice/bench.ts';

export interface InterviewOptions {
  readonly audience: 'mechanic' | 'rider';
  readonly rules: readonly string[];
  readonly bike?: string | undefined;
  readonly save?: string | undefined;
  readonly resume?: string | undefined;
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
  const desk = await openDesk(io, options.rules, options.bike);
  const { kase, bench } = await start(options, desk, io);
  const prompter = await options.prompter();
  let [state, effects] = begin(desk.model, bench, kase);
  const autosave = autosavePath(io, state.id);
  const send = (event: Event): void => {
    [state, effects] = step(desk.model, bench, state, event);
    if (effects.some((e) => e.do === 'save')) saveCase(autosave, toCaseFile(state), false);
  };
  try {
    if (state.steps.length === 0)
      for (const event of await askOpening(desk, prompter, options.audience)) send(event);
    for (;;) {
      const report = effects.find((e): e is Extract<Effect, { do: 'report' }> => e.do === 'report');
      if (report === undefined) {
        send(await askQuestion(desk, bench, state, prompter, options.audience));
        continue;
      }
      await finish(desk, bench, state, prompter);
      if (report.because === 'danger' || report.because === 'finished') break;
      const more = look(desk.model, bench, { ...state, keepAsking: true, ended: null });
      if (
        more.stop !== undefined ||
        more.open.length === 0 ||
        !(await prompter.confirm('Keep asking? There are still questions that tell a little.', false))
      )
        break;
      send({ type: 'keep-asking' });
    }
  } catch (error) {
    if (!(error instanceof Left)) throw error;
    const kept = state.steps.length > 0 || state.said !== undefined;
    if (kept)
      saveCase(options.save === undefined ? autosave : io.cwd + '/' + options.save, toCaseFile(state), true);
    io.err(
      kept
        ? `\nKept ${state.steps.length} answers in ${options.save ?? autosave}\nGo on with: earshot interview --resume ${options.save ?? autosave}\n`
        : '\nNothing was answered, so nothing was kept.\n',
    );
    return error.how === 'interrupt' ? EXIT.interrupted : EXIT.some;
  }
  saveCase(autosave, toCaseFile(state), true);
  if (options.save !== undefined) {
    const { resolve } = await import('node:path');
    saveCase(resolve(io.cwd, options.save), toCaseFile(state), true);
  }
  prompter.say(`\nThe answers are in ${options.save ?? autosave}\n`);
  return EXIT.done;
}

/** The case to begin from, and its bike. */
async function start(options: InterviewOptions, desk: Desk, io: Io) {
  if (options.resume === undefined) {
    const now = io.now();
    const id =
      options.id ?? `interview-${now.toISOString().slice(0, 16).replace(/[-:]/g, '').replace('T', '-')}`;
    const opened = await desk.open({
      name: id,
      folder: io.cwd,
      data: { case: 1, id, ...(options.bike === undefined ? {} : { bike: options.bike }) },
    });
    if ('faults' in opened) throw new Refusal(opened.faults.join('\n'));
    for (const warning of opened.warnings) io.err(`${warning}\n`);
    return opened;
  }
  for await (const record of readRecords([options.resume], io)) {
    const opened = await desk.open(record);
    if ('faults' in opened) throw new Refusal(opened.faults.join('\n'));
    for (const warning of opened.warnings) io.err(`${warning}\n`);
    return opened;
  }
  throw new Refusal(`${options.resume}: there is no case in this file.`);
}

async function finish(desk: Desk, bench: Bench, state: Interview, prompter: Prompter): Promise<void> {
  const kase = toCase(state);
  const result = toResult(
    desk.model,
    bench,
    kase,
    consult(desk.model, bench, kase, { next: true, explain: 3, fit: true, keepAsking: state.keepAsking }),
  );
  prompter.say(`\n${textReport(result, { style: prompter.style })}`);
  const list = ridersList(desk.model, state);
  if (list.length > 0) prompter.say(`\n${ridersListText(list, prompter.style)}`);
}
