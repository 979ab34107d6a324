/** The interview about a bike before this one, as far as this one can begin from it. */
import { resolve } from 'node:path';
import type { CaseAnswer, Tried } from '../../casework/case.ts';
import type { Entry } from '../../logbook/entry.ts';
import type { Io } from '../../host/io.ts';
import type { Workspace } from '../workspace.ts';
import { KEPT, newestFirst } from './kept-interviews.ts';
import { readRecords } from './records.ts';
import type { CaseRecord } from './case-texts.ts';

export interface LastInterview {
  readonly said?: string;
  /** topics of what bothered most */
  readonly about: readonly string[];
  readonly answers: readonly CaseAnswer[];
  /** an empty list: nothing was; absent: it was not asked */
  readonly tried?: readonly Tried[];
  /** when it was begun: an answer given later is no older */
  readonly at: Date;
}

/**
 * The one begun last.
 * @param sheet full path of the bike's sheet
 * @param entries the history of the bike
 */
export async function lastInterview(
  sheet: string,
  entries: readonly Entry[],
  workspace: Workspace,
  io: Io,
): Promise<LastInterview | undefined> {
  const found: { readonly record: CaseRecord; readonly at: Date }[] = [];
  for (const { path, time } of await newestFirst(entries, io))
    for await (const record of readRecords([path], io, KEPT)) {
      const data = record.data as
        { readonly bike?: unknown; readonly interview?: { readonly begun?: unknown } | null } | undefined;
      if (typeof data?.bike !== 'string' || resolve(record.folder, data.bike) !== sheet) continue;
      const begun = Date.parse(String(data.interview?.begun));
      found.push({ record, at: new Date(Number.isNaN(begun) ? time : begun) });
    }
  for (const { record, at } of found.toSorted((a, b) => b.at.getTime() - a.at.getTime())) {
    const opened = await workspace.open(record);
    if ('faults' in opened || opened.kase.answers.length === 0) continue;
    const { said, answers, interview, tried } = opened.kase;
    return {
      ...(said === undefined ? {} : { said }),
      about: interview?.about ?? [],
      answers,
      ...(tried === undefined ? {} : { tried }),
      at,
    };
  }
  return undefined;
}
