/** Interviews about one bike that were kept without a place of their own, newest first, and what each came to. */
import { readdir, stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { consult } from '../casework/consult.ts';
import { ImpossibleEvidence } from '../diagnosis/belief.ts';
import { toResult, type Result } from '../report/result.ts';
import type { Desk } from './desk.ts';
import type { Io } from './io.ts';
import type { OpenBike } from './open-bike.ts';
import { readRecords } from './records.ts';
import { autosaveFolder } from './save-place.ts';

export interface KeptInterview {
  readonly id: string;
  readonly path: string;
  readonly answers: number;
  readonly result: Result;
  /** no question worth asking is open, or the user ended it */
  readonly finished: boolean;
}

/** Older ones are history. */
const MOST = 20;

/** @param since interviews from before the last trial are of another bike; absent: all count */
export async function keptInterview(
  bike: OpenBike,
  desk: Desk,
  since: Date | undefined,
  io: Io,
): Promise<KeptInterview | undefined> {
  for (const path of await newestFirst(autosaveFolder(io), since))
    for await (const record of readRecords([path], io)) {
      const data = record.data as { readonly bike?: unknown } | undefined;
      if (typeof data?.bike !== 'string' || resolve(record.folder, data.bike) !== bike.path) continue;
      const opened = await desk.open(record);
      if ('faults' in opened) continue;
      const { kase, bench } = opened;
      try {
        const thought = consult(desk.model, bench, kase, {
          next: true,
          explain: 0,
          fit: false,
          skipPutOff: true,
          keepAsking: kase.interview?.keepAsking ?? false,
        });
        const result = toResult(desk.model, bench, kase, thought, { most: 1 });
        const finished = result.stop !== null || kase.interview?.finished === true;
        return { id: kase.id, path, answers: kase.answers.length, result, finished };
      } catch (error) {
        if (!(error instanceof ImpossibleEvidence)) throw error;
      }
    }
  return undefined;
}

async function newestFirst(folder: string, since: Date | undefined): Promise<string[]> {
  const names = await readdir(folder).catch(() => []);
  const found = await Promise.all(
    names
      .filter((name) => name.endsWith('.yaml') && !name.startsWith('.'))
      .map(async (name) => {
        const path = join(folder, name);
        return { path, time: (await stat(path)).mtimeMs };
      }),
  );
  return found
    .filter(({ time }) => since === undefined || time > since.getTime())
    .toSorted((a, b) => b.time - a.time)
    .slice(0, MOST)
    .map(({ path }) => path);
}
