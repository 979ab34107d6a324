/** The interview about a bike before this one, as far as this one can begin from it. */
import { resolve } from 'node:path';
import type { CaseAnswer } from '../../casework/case.ts';
import type { Entry } from '../../logbook/entry.ts';
import type { Io } from '../../host/io.ts';
import type { Workspace } from '../workspace.ts';
import { KEPT, newestFirst } from './kept-interviews.ts';
import { readRecords } from './records.ts';

export interface LastInterview {
  readonly said?: string;
  /** topics of what bothered most */
  readonly about: readonly string[];
  readonly answers: readonly CaseAnswer[];
  /** when it was written last */
  readonly at: Date;
}

/**
 * @param sheet full path of the bike's sheet
 * @param entries the history of the bike
 */
export async function lastInterview(
  sheet: string,
  entries: readonly Entry[],
  workspace: Workspace,
  io: Io,
): Promise<LastInterview | undefined> {
  for (const { path, time } of await newestFirst(entries, io))
    for await (const record of readRecords([path], io, KEPT)) {
      const data = record.data as { readonly bike?: unknown } | undefined;
      if (typeof data?.bike !== 'string' || resolve(record.folder, data.bike) !== sheet) continue;
      const opened = await workspace.open(record);
      if ('faults' in opened || opened.kase.answers.length === 0) continue;
      const { said, answers, interview } = opened.kase;
      return {
        ...(said === undefined ? {} : { said }),
        about: interview?.about ?? [],
        answers,
        at: new Date(time),
      };
    }
  return undefined;
}
