/** That earlier trials in the log of a bike count, and what they said. */
import type { Io } from '../../host/io.ts';

export function sayHistory(history: readonly string[], io: Io): void {
  if (history.length > 0)
    io.err(`Earlier trials on this bike count (--no-log leaves them out):\n  - ${history.join('\n  - ')}\n`);
}
