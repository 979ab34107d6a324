/** `earshot diagnose`: saved cases → ranked adjustments. */
import { reporters } from '../report/reporters.ts';
import { openDesk } from './desk.ts';
import { teller, type BatchOptions } from './diagnose-batch.ts';
import { EXIT, type ExitCode, type Io } from './io.ts';
import { readBatches } from './records.ts';

export interface DiagnoseOptions extends BatchOptions {
  readonly files: readonly string[];
  readonly rules: readonly string[];
  readonly bike?: string | undefined;
  /** whether earlier trials in the log of `bike` count; default true */
  readonly log?: boolean;
}

export async function diagnose(options: DiagnoseOptions, io: Io): Promise<ExitCode> {
  const desk = await openDesk(io, options.rules, options.bike, options.log ?? true);
  const { begin, end } = reporters[options.format](options);
  const tell = teller(desk, options);
  let told = 0;
  let failed = 0;
  if (begin !== '') await io.out(begin);
  for await (const batch of readBatches(options.files, io)) {
    const one = await tell(batch, told);
    told += one.told;
    failed += one.failed;
    if (one.err !== '') io.err(one.err);
    const written = one.out === '' ? undefined : io.out(one.out);
    if (written !== undefined) await written;
  }
  if (end !== '') await io.out(end);
  return failed === 0 ? EXIT.done : EXIT.some;
}
