/** The ways a system ends an interview from outside. */
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

/**
 * Ends the process as SIGHUP would have. Without a terminal Node cannot even exit: it aborts when it fails to reset a
 * terminal that is gone (seen with Node 20).
 */
export function dieOfHangup(): void {
  process.removeAllListeners('SIGHUP');
  process.kill(process.pid, 'SIGHUP');
}
