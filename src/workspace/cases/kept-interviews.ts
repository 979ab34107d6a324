/**
 * Interviews about one bike: those kept with the logs, and those kept in files of the user's own that its log names.
 * What the newest came to is where the bike stands; that it must not be ridden holds until that was asked anew.
 */
import { readdir, stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Case, CaseAnswer } from '../../casework/case.ts';
import { consult } from '../../casework/consult.ts';
import { ImpossibleEvidence } from '../../diagnosis/belief.ts';
import { hear } from '../../casework/evidence.ts';
import type { Danger, Known } from '../../diagnosis/gates.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Entry } from '../../logbook/entry.ts';
import type { Result } from '../../report/result/result.ts';
import { toResult } from '../../report/result/to-result.ts';
import { CANNOT_TELL, NOT_NOW, withoutEnd } from '../../rulebase/compiled.ts';
import type { Workspace } from '../workspace.ts';
import type { Io } from '../../host/io.ts';
import type { OpenBike } from '../bikes/open-bike.ts';
import { MOST_SHEET_BYTES } from '../../disk/read-file.ts';
import { readRecords } from './records.ts';
import { autosaveFolder } from './kept-case.ts';

export interface KeptInterview {
  readonly id: string;
  readonly path: string;
  readonly answers: number;
  readonly result: Result;
  /** no question worth asking is open, or the user ended it */
  readonly finished: boolean;
}

/** An interview that found something dangerous, and nothing since that clears it. */
export interface StopFound {
  readonly id: string;
  /** where its answers are; absent when they are not there any more, and only the log still knows of them */
  readonly path?: string;
  /** what to have done */
  readonly first?: string;
}

export interface KeptInterviews {
  readonly newest?: KeptInterview;
  readonly stop?: StopFound;
  /** whom the newest of all spoke to, tested since or not; a mechanic when absent */
  readonly for?: 'rider';
}

/** A log may be from anybody, and name anything. */
export const KEPT = { plain: true, most: MOST_SHEET_BYTES } as const;
/** Older ones are history. */
const MOST = 20;

/** A file to look at, with what the log says of it, if it does. */
interface Candidate {
  readonly path: string;
  /** when it was written last, ms since 1970 */
  readonly time: number;
  readonly entry?: Entry;
}

/**
 * @param entries the history of the bike
 * @param since what an interview from before the last trial asked for is history; a danger it found is not
 */
export async function keptInterviews(
  bike: OpenBike,
  workspace: Workspace,
  entries: readonly Entry[],
  since: Date | undefined,
  io: Io,
): Promise<KeptInterviews> {
  const looked: Looked[] = [];
  for (const one of await newestFirst(entries, io))
    looked.push({ ...one, read: await readInterview(one, bike, workspace, io) });
  const readable = looked.flatMap(({ time, read }) => (read === undefined ? [] : [{ time, ...read }]));
  const newest = readable.find(({ time }) => since === undefined || time > since.getTime())?.kept;
  const spokenTo = readable[0]?.kase.interview?.for;
  const stop = stopIn(looked, workspace);
  return {
    ...(newest === undefined ? {} : { newest }),
    ...(spokenTo === undefined ? {} : { for: spokenTo }),
    ...(stop === undefined ? {} : { stop }),
  };
}

/** A file that was looked at, and what it says now; nothing where it cannot be read, or is about another bike. */
interface Looked extends Candidate {
  readonly read: ReadInterview | undefined;
}

/** The newest danger that is still there. */
function stopIn(looked: readonly Looked[], { model }: Workspace): StopFound | undefined {
  const always = model.rules.questions.filter((q) => q.safety && q.gates.length === 0).map((q) => q.id);
  /** what newer interviews asked anew, the newest answer of each question */
  const anew = new Map<string, CaseAnswer>();
  for (const { path, entry, read } of looked.toSorted((a, b) => asOf(b) - asOf(a))) {
    if (read === undefined) {
      // Its answers are gone; what the log says of them is not.
      if (entry?.kept?.stop === true && !always.every((id) => anew.has(id)))
        return { id: entry.case ?? path };
      continue;
    }
    const { kase, kept } = read;
    if (kept.result.verdict === 'stop' && stands(model, read, anew)) {
      const first = kept.result.adjustments.find((a) => a.id === kept.result.first);
      return { id: kept.id, path, ...(first === undefined ? {} : { first: first.do }) };
    }
    for (const answer of kase.answers)
      if (!anew.has(answer.question) && answer.answer !== CANNOT_TELL && answer.answer !== NOT_NOW)
        anew.set(answer.question, answer);
  }
  return undefined;
}

/**
 * How new what a file says is, ms since 1970. An interview that was taken up again has answers from its beginning, so
 * they clear nothing that was found since; a danger is as new as the log has it.
 */
function asOf({ time, entry, read }: Looked): number {
  const stop = read === undefined || read.kept.result.verdict === 'stop';
  if (stop && entry?.kept?.stop === true) return Date.parse(entry.at);
  const begun = read?.kase.interview?.begun;
  return begun === undefined ? time : Date.parse(begun);
}

/**
 * Whether a danger is still there: a question it stood in was not asked anew, or what was answered since is dangerous
 * itself beside what was answered then.
 */
function stands(
  model: Model,
  { kase, dangers, fact }: ReadInterview,
  anew: ReadonlyMap<string, CaseAnswer>,
): boolean {
  const { questions } = model.rules;
  // What was answered of either end is asked anew once both ends are.
  const asked = (id: string): boolean =>
    anew.has(id) ||
    questions[model.questionIndex.get(id)!]!.either?.every((end) => anew.has(questions[end]!.id)) === true;
  if (dangers.length === 0 || !dangers.every((d) => asked(d.question))) return true;
  const now = [...kase.answers.filter((a) => !asked(a.question)), ...anew.values()];
  const found = new Set(dangers.map((d) => withoutEnd(d.question)));
  return hear(model, now, fact).dangers.some((d) => found.has(withoutEnd(d.question)));
}

interface ReadInterview {
  readonly kase: Case;
  readonly kept: KeptInterview;
  /** what it found that stops all tuning */
  readonly dangers: readonly Danger[];
  readonly fact: Known['bike'];
}

/** The interview in a file as it stands now; undefined when there is none about this bike that can be read. */
async function readInterview(
  { path, entry }: Candidate,
  bike: OpenBike,
  workspace: Workspace,
  io: Io,
): Promise<ReadInterview | undefined> {
  for await (const record of readRecords([path], io, KEPT)) {
    const data = record.data as { readonly bike?: unknown } | null | undefined;
    // What the log names is about this bike where it names no other: its sheet may have been made after it.
    const own = data?.bike === undefined && entry !== undefined ? bike.path : data?.bike;
    if (typeof own !== 'string' || resolve(record.folder, own) !== bike.path) continue;
    const opened = await workspace.open(record);
    if ('faults' in opened) continue;
    const { kase, bench } = opened;
    try {
      const thought = consult(workspace.model, bench, kase, {
        next: true,
        explain: 0,
        fit: false,
        skipPutOff: true,
        keepAsking: kase.interview?.keepAsking ?? false,
      });
      const result = toResult(workspace.model, kase, thought, {
        most: 1,
        ...(await workspace.said(kase)),
      });
      const finished = result.stop !== null || kase.interview?.finished === true;
      const { dangers } = thought.heard;
      return {
        kase,
        dangers,
        fact: bench.fact,
        kept: { id: kase.id, path, answers: kase.answers.length, result, finished },
      };
    } catch (error) {
      if (!(error instanceof ImpossibleEvidence)) throw error;
    }
  }
  return undefined;
}

/** Files that may hold an interview of the bike, the newest first. */
export async function newestFirst(entries: readonly Entry[], io: Io): Promise<readonly Candidate[]> {
  const found = new Map<string, Candidate>();
  for (const entry of entries)
    if (entry.kept !== undefined)
      found.set(entry.kept.file, { path: entry.kept.file, time: Date.parse(entry.at), entry });
  const folder = autosaveFolder(io);
  const names = await readdir(folder).catch(() => []);
  const kept = await Promise.all(
    names
      .filter((name) => name.endsWith('.yaml') && !name.startsWith('.'))
      .map(async (name) => {
        const path = join(folder, name);
        return { path, time: (await stat(path)).mtimeMs };
      }),
  );
  for (const one of kept.toSorted((a, b) => b.time - a.time).slice(0, MOST)) {
    const entry = found.get(one.path)?.entry;
    found.set(one.path, { ...one, ...(entry === undefined ? {} : { entry }) });
  }
  return [...found.values()].toSorted((a, b) => b.time - a.time);
}
