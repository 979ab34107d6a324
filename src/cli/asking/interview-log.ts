/** What an interview has of the log of its bike, and what goes into it. */
import { dirname } from 'node:path';
import { logHome } from '../../logbook/home.ts';
import { keptNote } from '../../logbook/entry.ts';
import { openLog } from '../../logbook/log.ts';
import type { Interview } from '../../interview/state.ts';
import { Refusal, type Io } from '../../host/io.ts';
import { refusing } from '../../workspace/bikes/open-bike.ts';
import { openOnes, trialsIn } from '../../workspace/bikes/trial-shelf.ts';
import { openTrialLine } from '../../report/bike/trial-text.ts';
import { autosaveFolder } from '../../workspace/cases/kept-case.ts';
import { lastInterview, type LastInterview } from '../../workspace/cases/last-interview.ts';
import type { Workspace } from '../../workspace/workspace.ts';

/** The interview before; a log that cannot be read is told of where it is written. */
export async function lastAbout(
  path: string,
  id: string,
  workspace: Workspace,
  io: Io,
): Promise<LastInterview | undefined> {
  try {
    return await refusing(async () => {
      const { entries } = await (await openLog(logHome(io.env), id, { now: io.now })).readHistory();
      return await lastInterview(path, entries, workspace, io);
    });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return undefined;
  }
}

/**
 * A trial that is open is carried on first: whatever the interview finds cannot be tried beside it.
 * @param at names the bike on a command line
 */
export async function sayOpenTrial(id: string, at: string, io: Io): Promise<void> {
  try {
    await refusing(async () => {
      const log = await openLog(logHome(io.env), id, { now: io.now });
      for (const trial of openOnes(trialsIn(await log.loadTrials(), () => undefined)))
        io.err(`${openTrialLine(trial, at)}\n`);
    });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
  }
}

/**
 * The bike's log names what is not found with the logs by itself, and every danger: whoever looks at the bike next must
 * not miss it, wherever the answers are and whatever becomes of their file.
 */
export async function intoLog(
  { id, stop }: { readonly id: string; readonly stop: boolean },
  bike: string,
  path: string,
  io: Io,
): Promise<void> {
  try {
    await refusing(async () => {
      const log = await openLog(logHome(io.env), bike, { now: io.now });
      const { entries } = await log.readHistory();
      const before = entries.findLast(({ kept }) => kept?.file === path);
      if (stop || dirname(path) !== autosaveFolder(io) || before?.kept?.stop === true)
        await log.append(keptNote(id, path, stop));
    });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    io.err(
      `${stop ? 'STOP' : 'This interview'} is not in the log of the bike, so earshot next does not know about it. ${error.message}\n`,
    );
  }
}

/** What the log says of an interview. */
export function noteOf({ id, ended }: Interview): { readonly id: string; readonly stop: boolean } {
  return { id, stop: ended === 'danger' };
}
