/** The history of a bike's log, with what is odd about it said, and that earlier trials in it count. */
import type { History } from '../../logbook/history.ts';
import type { Io } from '../../host/io.ts';
import { openBike, refusing, type OpenBike } from './open-bike.ts';
import { paragraph } from '../../report/wrap.ts';

export async function readHistory(file: string, io: Io): Promise<{ bike: OpenBike; history: History }> {
  const bike = await openBike(file, io);
  const history = await refusing(() => bike.log.readHistory());
  if (history.misnumbered !== undefined) io.err(`${history.misnumbered}\n`);
  if (history.unfinished !== undefined)
    io.err(
      `Line ${history.unfinished.line} of ${bike.log.folder}/history.yaml has an unfinished entry. It does not count.\n`,
    );
  return { bike, history };
}

/** Columns of a screen that nothing is known of: these lines go beside the output, wherever that goes. */
const WIDTH = 79;

export function sayHistory(history: readonly string[], io: Io): void {
  if (history.length === 0) return;
  const lines = history.map((line) => paragraph(line, WIDTH, '  - ', '    '));
  io.err(`Earlier trials on this bike count (--no-log leaves them out):\n${lines.join('\n')}\n`);
}
