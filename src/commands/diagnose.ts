/** `earshot diagnose`: saved cases → ranked adjustments. */
import { reporters } from '../report/reporters.ts';
import { openDesk } from './desk.ts';
import { teller, type BatchOptions } from './diagnose-batch.ts';
import { toldInOrder, type Hands } from './in-order.ts';
import { EXIT, type ExitCode, type Io } from './io.ts';
import { progressOn } from './progress.ts';
import { readBatches } from './records.ts';

export interface DiagnoseOptions extends BatchOptions {
  readonly files: readonly string[];
  readonly rules: readonly string[];
  readonly bike?: string | undefined;
  /** whether earlier trials in the log of `bike` count; default true */
  readonly log?: boolean;
  /** threads for a long input; default 1 */
  readonly jobs?: number;
}

export async function diagnose(options: DiagnoseOptions, io: Io): Promise<ExitCode> {
  const desk = await openDesk(io, options.rules, options.bike, options.log ?? true);
  const { begin, end } = reporters[options.format](options);
  const progress = progressOn(io);
  let failed = 0;
  if (begin !== '') await io.out(begin);
  for await (const one of toldInOrder(
    readBatches(options.files, io),
    teller(desk, options),
    hands(options, io),
  )) {
    failed += one.failed;
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
  return failed === 0 ? EXIT.done : EXIT.some;
}

/** Threads where they are asked for and the output is for programs: what people read is not that long. */
function hands(options: DiagnoseOptions, { cwd, env }: Io): (() => Promise<Hands>) | undefined {
  const { jobs = 1, format, full, next, explain, rules, bike, log = true } = options;
  if (jobs < 2 || (format !== 'ndjson' && format !== 'csv')) return undefined;
  return async () => {
    const { threads } = await import('./tell-threads.ts');
    return threads(jobs, {
      options: { format, full, next, explain },
      rules,
      bike,
      log,
      cwd,
      env: { ...env },
    });
  };
}
