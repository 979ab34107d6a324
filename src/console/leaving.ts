/** The ways a system ends an interview from outside. */
import { setTimeout } from 'node:timers/promises';
import { isatty } from 'node:tty';
import type { Leaving } from './prompter.ts';

const SIGNALS = { SIGINT: 'interrupt', SIGTERM: 'terminate', SIGHUP: 'hangup' } as const;

/**
 * Calls `leave` instead of letting a signal end the process, so that what was answered can be kept first.
 * @returns gives the signals back
 */
export function watchLeaving(input: NodeJS.ReadableStream, leave: (how: Leaving) => void): () => void {
  const handlers = Object.entries(SIGNALS).map(([signal, how]) => [signal, () => leave(how)] as const);
  const gone = (): void => leave('hangup');
  for (const [signal, handler] of handlers) process.on(signal, handler);
  // Reading from a terminal that was closed fails before, after or instead of the signal.
  input.on('error', gone);
  return () => {
    for (const [signal, handler] of handlers) process.off(signal, handler);
  };
}

/** How long a terminal takes to go after its input ended; nobody notices so short a wait after Ctrl-D. */
const GOING_MS = 50;

/**
 * Where the terminal is gone, ends the process as SIGHUP does; otherwise returns. Without a terminal Node cannot even
 * exit: it aborts when it fails to reset the terminal (seen with Node 20).
 */
export async function endIfGone(input: NodeJS.ReadableStream, left: Leaving | undefined): Promise<void> {
  const { fd, isTTY } = input as { readonly fd?: number; readonly isTTY?: boolean };
  if (isTTY !== true || fd === undefined || (left !== 'end' && left !== 'hangup')) return;
  const look = (): void => {
    if (isatty(fd)) return;
    process.removeAllListeners('SIGHUP');
    process.kill(process.pid, 'SIGHUP');
  };
  // The end of the input comes before the signal that says why, which may never come, and before the terminal is gone.
  await setTimeout(GOING_MS);
  process.once('exit', look);
  look();
}
