/** How far a long input has come, on one line of standard error; only for somebody who sees nothing else meanwhile. */
import type { Io } from './io.ts';

export interface Progress {
  /** clears the line, because something else is to be written there */
  readonly clear: () => void;
  readonly moved: (cases: number) => void;
}

/** Shorter inputs than this say nothing, and a line stands at least as long. */
const PATIENCE_MS = 1_000;

const CLEAR = '\r\u001B[K';

export function progressOn(io: Io): Progress {
  // Where the output itself goes to the terminal, that is the progress.
  if (!io.stderrIsTty || io.stdoutIsTty) return { clear: () => undefined, moved: () => undefined };
  const begun = io.now().getTime();
  let told = begun;
  let total = 0;
  let shown = false;
  return {
    clear: () => {
      if (shown) io.err(CLEAR);
      shown = false;
    },
    moved: (cases) => {
      total += cases;
      const now = io.now().getTime();
      if (now - told < PATIENCE_MS) return;
      told = now;
      shown = true;
      const rate = Math.round((1000 * total) / (now - begun));
      io.err(`\r${total.toLocaleString('en')} cases, ${rate.toLocaleString('en')} a second `);
    },
  };
}
