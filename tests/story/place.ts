/** A rider's folder with a bike sheet in it and a log home of its own, and a made-up rider to go with it. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { stringify } from 'yaml';
import { interview } from '../../src/cli/commands/interview.ts';
import { Left, type Prompter } from '../../src/console/prompter.ts';
import { PLAIN } from '../../src/report/style.ts';
import { openWorkspace } from '../../src/workspace/workspace.ts';
import type { Io } from '../../src/host/io.ts';
import { begin, step } from '../../src/interview/session.ts';
import type { Interview } from '../../src/interview/state.ts';
import { openLog } from '../../src/logbook/log.ts';
import { nextArm, runsLeft } from '../../src/trials/sequence.ts';
import { readTrial } from '../../src/trials/trial-file.ts';
import { afterwards, earshot, shareKept, type Ran } from '../support/io.ts';

export interface Workshop {
  readonly folder: string;
  readonly env: Readonly<Record<string, string>>;
  run(...argv: string[]): Promise<Ran>;
  /** runs, and fails with what it said when it does not come out with 0 */
  out(...argv: string[]): Promise<string>;
  // oxlint-disable-next-line typescript/no-explicit-any -- what each command prints is looked at where it is used
  json(...argv: string[]): Promise<any>;
  sheet(): string;
  writeCase(name: string, data: Readonly<Record<string, unknown>>): string;
}

/** @param kept whether its home has the shelves of the whole run for what is kept; else it has none yet, as a new rider has */
export function workshop(example = 'all-knobs', kept = true): Workshop {
  const folder = mkdtempSync(join(tmpdir(), 'earshot-story-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  cpSync(new URL(`../../examples/bikes/${example}.yaml`, import.meta.url), join(folder, 'bike.yaml'));
  const env = { EARSHOT_HOME: join(folder, 'home') };
  if (kept) shareKept(env.EARSHOT_HOME);
  const run = (...argv: string[]): Promise<Ran> => earshot(argv, { cwd: folder, env });
  const out = async (...argv: string[]): Promise<string> => {
    const ran = await run(...argv);
    if (ran.code !== 0) throw new Error(`earshot ${argv.join(' ')}: ${ran.code}\n${ran.err}${ran.out}`);
    return ran.out;
  };
  return {
    folder,
    env,
    run,
    out,
    json: async (...argv) => JSON.parse(await out(...argv, '--format', 'json')),
    sheet: () => readFileSync(join(folder, 'bike.yaml'), 'utf8'),
    writeCase(name, data) {
      writeFileSync(join(folder, name), stringify(data));
      return name;
    },
  };
}

/** An interview held with a made-up rider; questions he says nothing about get their default answer. */
export async function hold(
  { folder, env }: Workshop,
  id: string,
  rider: Readonly<Record<string, string>>,
): Promise<Interview> {
  const now = (): Date => new Date('2026-05-04T10:20:30Z');
  const later = afterwards();
  const io = { cwd: folder, env, err: () => undefined, now, afterwards: later.afterwards };
  const workspace = await openWorkspace(io as unknown as Io, [], 'bike.yaml', true);
  const opened = await workspace.open({ name: id, folder, data: { case: 1, id, bike: 'bike.yaml' } });
  if ('faults' in opened) throw new Error(opened.faults.join('\n'));
  const { model } = workspace;
  let [state] = begin(model, opened.bench, opened.kase);
  while (state.current !== null) {
    const question = model.rules.questions[model.questionIndex.get(state.current)!]!;
    const answer = rider[state.current] ?? question.answers[question.default]!.id;
    [state] = step(model, opened.bench, state, { type: 'answer', answer });
  }
  await later.finish();
  return state;
}

/** Opens the interview at the prompt and leaves it at the first question. */
export async function glance({ folder, env }: Workshop): Promise<{ code: number; err: string }> {
  let err = '';
  const io = {
    cwd: folder,
    env,
    stdinIsTty: true,
    stdoutIsTty: true,
    out: () => undefined,
    err: (text: string) => void (err += text),
    now: () => new Date('2026-05-04T10:20:30Z'),
  };
  const leave = (): Promise<never> => Promise.reject(new Left('interrupt'));
  const prompter: Prompter = {
    style: PLAIN,
    ask: leave,
    list: leave,
    text: leave,
    say: () => undefined,
    close: () => Promise.resolve(),
  };
  const options = {
    for: 'mechanic',
    log: true,
    rules: [],
    bike: 'bike.yaml',
    prompter: async () => prompter,
  } as const;
  return { code: await interview(options, io as unknown as Io), err };
}

/** Rides the only trial of the log to its end; all feelings of a run are rated alike, by where the adjuster stood. */
export async function ride(shop: Workshop, rated: Readonly<Record<string, number>>): Promise<void> {
  const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
  for (;;) {
    const trials = (await log.loadTrials()).papers.map(({ data }) => readTrial(data));
    const trial = trials.find(({ value }) => value?.verdict === undefined) ?? trials[0]!;
    if (trial.value === undefined) throw new Error(JSON.stringify(trial.problems));
    if (runsLeft(trial.value) === 0) return;
    const value = rated[nextArm(trial.value)];
    const ratings = trial.value.feelings.flatMap(({ id }) => ['--rating', `${id}=${value}`]);
    await shop.out('trial', 'record', '--bike', 'bike.yaml', ...ratings);
  }
}
