/** The history of a bike's log, with what is odd about it said. */
import type { History } from '../../logbook/history.ts';
import type { Io } from '../../host/io.ts';
import { openBike, refusing, type OpenBike } from './open-bike.ts';

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
