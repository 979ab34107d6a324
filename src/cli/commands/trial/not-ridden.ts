/** Whether a danger was found that comes before every run of a trial, and how that is said. */
import type { Io } from '../../../host/io.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import { interviewName } from '../../../report/phrases.ts';
import type { OpenBike } from '../../../workspace/bikes/open-bike.ts';
import { keptInterviews, type StopFound } from '../../../workspace/cases/kept-interviews.ts';
import { openWorkspace } from '../../../workspace/workspace.ts';

/** @param bike as the line named it */
export function notRidden({ id }: StopFound, bike: string, packs: readonly string[] = []): string {
  return `Do not ride this bike: ${interviewName(id)} found something that comes before any tuning. More: earshot next --bike ${quoted(bike)}${packArgs(packs)}`;
}

/** A danger that the log tells of and nothing has cleared since; the interviews are read only where it tells of any. */
export async function stopLogged(bike: OpenBike, named: string, io: Io): Promise<StopFound | undefined> {
  const { entries } = await bike.log.readHistory();
  if (!entries.some(({ kept }) => kept?.stop === true)) return undefined;
  const workspace = await openWorkspace(io, io.packs ?? [], named, true);
  return (await keptInterviews(bike, workspace, entries, undefined, io)).stop;
}
