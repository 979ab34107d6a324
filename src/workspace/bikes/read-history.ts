/** A bike, and the history in its log. */
import type { History } from '../../logbook/history.ts';
import type { Io } from '../../host/io.ts';
import { openBike, refusing, type OpenBike } from './open-bike.ts';

export async function readHistory(file: string, io: Io): Promise<{ bike: OpenBike; history: History }> {
  const bike = await openBike(file, io);
  const history = await refusing(() => bike.log.readHistory());
  return { bike, history };
}
