/** `earshot diagnose`: saved answers → ranked adjustments. */
import { args, command, flag, format, text, unless, whom, type Given } from '../takes.ts';
import { jobs } from '../values.ts';
import { reporters, type Format } from '../../report/reporters.ts';
import { openWorkspace } from '../../workspace/workspace.ts';
import { MOST_FAILING, teller, type BatchOptions, type Told } from '../batch/batch-runner.ts';
import { toldInOrder, type Hands } from '../batch/ordered.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../host/io.ts';
import { progressOn } from '../../host/progress.ts';
import { resultKeeper } from '../../workspace/cases/kept-by-content.ts';
import { readBatches, type Batch } from '../../workspace/cases/records.ts';

const options = {
  format: format('text', 'json', 'ndjson', 'csv', 'markdown'),
  bike: text('file', 'bike sheet, or the id of a bike with a log, for cases that name none'),
  log: unless('leave out what was tested on the bike before'),
  full: flag('everything: evidence, all options, every caution'),
  next: flag('ndjson, csv, text with --full: rank the open questions too'),
  explain: flag('ndjson, text with --full: the effect of every answer too'),
  for: whom('text, markdown: trade words for a mechanic, plain words for a rider'),
  jobs: jobs('ndjson, csv: threads for long inputs; the output is the same'),
};
export type DiagnoseOptions = Given<typeof options> &
  Pick<BatchOptions, 'style'> & { readonly files: readonly string[]; readonly rules: readonly string[] };

export const diagnoseCommand = command({
  about: 'saved answers → what to do first, and why',
  args: {
    files: args(
      'case files (YAML, JSON, NDJSON), or - for standard input; earshot interview asks you and makes one',
    ),
  },
  options,
  examples: [
    ['earshot diagnose case.yaml', 'the one thing to do first, and why'],
    ['earshot diagnose case.yaml --bike my-bike.yaml --full', 'everything, for this bike'],
    ['earshot diagnose cases.ndjson --format csv', 'a table, a line a case'],
    ['earshot diagnose - --format ndjson --next < cases.ndjson', 'a stream, with the next question'],
  ],
  run: async (given, { io, rules, style }) => diagnose({ ...given, rules, style: await style() }, io),
});

export async function diagnose(options: DiagnoseOptions, io: Io): Promise<ExitCode> {
  refuseNoPlace(options);
  const workspace = await openWorkspace(io, options.rules, options.bike, options.log);
  const { begin, end } = reporters[options.format]({ style: options.style, full: options.full });
  const progress = progressOn(io);
  let failed = 0;
  const failing: string[] = [];
  let unreadable = 0;
  let done = 0;
  if (begin !== '') await io.out(begin);
  const all = toldInOrder(
    lookingUp(readBatches(options.files, io)),
    teller(workspace, {
      ...options,
      packs: options.rules,
      audience: options.for,
      cwd: io.cwd,
      kept: resultKeeper(io),
    }),
    hands(options, io),
  );
  let stopped = false;
  // A race against the one promise of an interrupt would hold every piece until it ends: the interrupt wakes the one wait.
  let heard = false;
  let wake: (() => void) | undefined;
  void io.interrupted?.().then(() => {
    heard = true;
    wake?.();
  });
  const piece = (): Promise<IteratorResult<Told> | 'interrupted'> =>
    new Promise((resolve, reject) => {
      wake = () => resolve('interrupted');
      if (heard) wake();
      else all.next().then(resolve, reject);
    });
  for (;;) {
    // Whatever is being told is told to its end: an interrupt is heard between two pieces.
    const next = await piece();
    if ((stopped = next === 'interrupted') || next.done === true) break;
    const one = next.value;
    failed += one.failed;
    failing.push(...one.failing.slice(0, MOST_FAILING - failing.length));
    unreadable += one.unreadable;
    done += one.told + one.failed;
    if (one.err !== '') {
      progress.clear();
      io.err(one.err);
    }
    const written = one.out === '' ? undefined : io.out(one.out);
    if (written !== undefined) await written;
    progress.moved(one.told + one.failed);
  }
  progress.clear();
  if (end !== '') await io.out(end);
  if (stopped) {
    io.err(
      `Interrupted: ${done} ${done === 1 ? 'case was' : 'cases were'} read and told, the rest was not.\n`,
    );
    return EXIT.interrupted;
  }
  const code = failed === 0 ? EXIT.done : unreadable > 0 ? EXIT.usage : EXIT.some;
  if (failed > 0 && done > 1) io.err(failedLine(failed, done, failing, code));
  return code;
}

/** What the messages add up to: in a long batch they have scrolled away, and standard output may be a file. */
function failedLine(failed: number, all: number, failing: readonly string[], code: ExitCode): string {
  const more = failed > failing.length ? ` and ${failed - failing.length} more` : '';
  const rest = failed === all ? '' : ' The rest were told.';
  return `${failed} of ${all} failed: ${failing.join(', ')}${more}.${rest} Exit code ${code}.\n`;
}

/** What a form has no place for, and where it is told instead: what is asked for is never passed over. */
const NO_PLACE: { readonly [F in Format]?: Readonly<Partial<Record<'next' | 'explain' | 'full', string>>> } =
  {
    text: { next: 'add --full', explain: 'add --full' },
    csv: { explain: 'use --format ndjson', full: 'use --format json' },
    markdown: { explain: 'use --format json, or earshot explain CASE' },
  };

/** @throws Refusal with every option that the form would pass over */
function refuseNoPlace(options: DiagnoseOptions): void {
  const { format: form, full } = options;
  if (form === 'text' && full) return;
  const lost = Object.entries(NO_PLACE[form] ?? {}).filter(([key]) => options[key as 'next'] === true);
  if (lost.length > 0)
    throw new Refusal(
      lost.map(([key, instead]) => `--format ${form} has no place for --${key}: ${instead}.`).join('\n'),
    );
}

/** How long the work may go on without looking up, s; read without `performance`, whose module is dear to load. */
const LOOK_UP = 0.05;

/** Now and then an interrupt is listened for. */
async function* lookingUp(batches: AsyncIterable<Batch>): AsyncGenerator<Batch> {
  let looked = process.uptime();
  for await (const batch of batches) {
    if (process.uptime() - looked > LOOK_UP) {
      await new Promise((resolve) => setImmediate(resolve));
      looked = process.uptime();
    }
    yield batch;
  }
}

/** Threads where they are asked for and the output is for programs: what people read is not that long. */
function hands(options: DiagnoseOptions, { cwd, env, bikes = [] }: Io): (() => Promise<Hands>) | undefined {
  const { jobs, format, full, next, explain, rules, bike, log } = options;
  if (jobs < 2 || (format !== 'ndjson' && format !== 'csv')) return undefined;
  return async () => {
    const { threads } = await import('../batch/worker-pool.ts');
    return threads(jobs, {
      options: { format, full, next, explain },
      rules,
      bike,
      bikes,
      log,
      cwd,
      env: { ...env },
    });
  };
}
