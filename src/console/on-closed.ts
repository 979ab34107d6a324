/** The end of a prompt's input, and its being stopped for a while, which the prompt library does not report. */
import type { Interface } from 'node:readline';

/** @param reader the library's own type of it leaves out that it emits events */
export function onClosed(reader: object, then: () => void): void {
  (reader as Interface).once('close', then);
  // A terminal that was closed is read with an error, which nobody else listens to.
  (reader as Interface).on('error', then);
  // After Ctrl-Z Node's reader pauses itself and leaves it to others to go on; nothing would be read any more.
  (reader as Interface).on('SIGCONT', () => (reader as Interface).resume());
}
