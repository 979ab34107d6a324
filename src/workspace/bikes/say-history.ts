/** That earlier trials of a bike count; apart from what reads its log, which is dear to load and most starts do not need. */
import type { Io } from '../../host/io.ts';
import { paragraph } from '../../report/wrap.ts';

/** Columns of a screen that nothing is known of: these lines go beside the output, wherever that goes. */
const WIDTH = 79;

export function sayHistory(history: readonly string[], io: Io): void {
  if (history.length === 0) return;
  const lines = history.map((line) => paragraph(line, WIDTH, '  - ', '    '));
  io.err(`Earlier trials on this bike count (--no-log leaves them out):\n${lines.join('\n')}\n`);
}
