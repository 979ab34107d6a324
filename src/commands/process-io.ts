/** The real process as an Io: writes wait for the reader, and a reader that went away ends the program quietly. */
import type { Io } from './io.ts';

export function processIo(): Io {
  const { stdout, stderr, stdin } = process;
  for (const stream of [stdout, stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      // The reader (head, less) has seen enough; that is no fault.
      if (error.code === 'EPIPE') process.exit(0);
      throw error;
    });
  }
  return {
    out: (text) => (stdout.write(text) ? undefined : new Promise((resolve) => stdout.once('drain', resolve))),
    err: (text) => void stderr.write(text),
    stdin,
    cwd: process.cwd(),
    env: process.env,
    stdinIsTty: stdin.isTTY ?? false,
    stdoutIsTty: stdout.isTTY ?? false,
    stderrIsTty: stderr.isTTY ?? false,
    width: stdout.columns ?? 80,
    now: () => new Date(),
  };
}
