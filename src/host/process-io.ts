/** The real process as an Io: writes wait for the reader, and a reader that went away ends the program quietly. */
import { isAbsolute } from 'node:path';
import { EXIT, type Io } from './io.ts';

export interface ProcessIo extends Io {
  /** whether all that was written has left the process */
  readonly allWritten: () => boolean;
  /** does what waited for the end; never throws */
  readonly finish: () => Promise<void>;
}

/** Folders that libraries find things by. One that names no place would be the working folder, whoseever that is. */
const PLACES = ['HOME', 'XDG_CACHE_HOME', 'XDG_CONFIG_HOME', 'XDG_DATA_HOME', 'XDG_STATE_HOME'];

export function processIo(): ProcessIo {
  // Empty means unset; and by the standard (XDG base directories) a relative path there is to be ignored.
  for (const name of PLACES) if (!isAbsolute(process.env[name] ?? '')) delete process.env[name];
  const { stdout } = process;
  // Opened when first needed: most runs write nothing to it, and an opening costs time.
  let opened: NodeJS.WriteStream | undefined;
  const stderr = (): NodeJS.WriteStream => {
    // Messages that nobody reads any more must not stop the work on standard output.
    return (opened ??= process.stderr.on('error', () => undefined));
  };
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    // The reader (head, less) has seen enough; that is no fault.
    if (error.code === 'EPIPE') process.exit(EXIT.done);
    // The terminal was closed: there is nobody to tell, and an interview still has answers to keep.
    if (error.code === 'EIO' && stdout.isTTY) return;
    const why = error.code === 'ENOSPC' ? 'there is no room left' : (error.code ?? error.message);
    stderr().write(`The output could not be written: ${why}. What was written so far is not all of it.\n`);
    process.exit(EXIT.usage);
  });
  const waiting: (() => Promise<void>)[] = [];
  return {
    afterwards: (work) => void waiting.push(work),
    finish: async () => {
      for (const work of waiting) await work().catch(() => undefined);
    },
    allWritten: () => stdout.writableLength === 0 && (opened?.writableLength ?? 0) === 0,
    out: (text) => (stdout.write(text) ? undefined : new Promise((resolve) => stdout.once('drain', resolve))),
    err: (text) => void stderr().write(text),
    // Opening it costs time, and most commands do not read it.
    get stdin() {
      return process.stdin;
    },
    cwd: workingFolder(),
    env: process.env,
    get stdinIsTty() {
      return isTty(0);
    },
    stdoutIsTty: stdout.isTTY ?? false,
    get stderrIsTty() {
      return isTty(2);
    },
    width: stdout.columns ?? 80,
    now: () => new Date(),
    interrupted: () => new Promise((resolve) => process.once('SIGINT', () => resolve('interrupted'))),
  };
}

/** Loaded when first used: what is written to a file asks for no terminal. */
function isTty(stream: number): boolean {
  return process.getBuiltinModule('node:tty').isatty(stream);
}

/** A folder that was removed since has no name; the shell still knows the one it had, and may have it anew. */
function workingFolder(): string {
  try {
    return process.cwd();
  } catch {
    const named = process.env['PWD'] ?? '/';
    try {
      process.chdir(named);
    } catch {
      // Gone for good: a file named in it is not found, which says enough.
    }
    return named;
  }
}
