/** What a bike's log says of earlier interviews and their trials, as the rounds of a case. */
import { isSameDeed } from '../bike/deed.ts';
import type { Entry, Value } from '../logbook/entry.ts';
import { trialsNow } from '../logbook/trials-now.ts';
import type { CaseAnswer, CaseResult, Round } from './case.ts';

/** A round with the interview it began with; without one, the trial was planned from a change alone. */
export interface LoggedRound extends Round {
  readonly case?: string;
}

/** What the ratings of one trial say, judged or still open. */
export interface RatedTrial {
  readonly id: string;
  /** the interview behind it */
  readonly case?: string;
  readonly results: readonly CaseResult[];
}

/**
 * Rounds from the trials that were ridden, oldest first: those that the history tells the end of, then those that are
 * open or ended without a word of it. An interview without a ridden trial is no round: its answers
 * speak of the same bike as the next ones, and counting both would count one impression twice.
 *
 * @param answersOf the answers of an interview in the log; undefined when they cannot be read any more
 * @param rated what the ratings of the trials in the log say; an entry that does not tell its points gets them from here
 */
export function roundsOf(
  entries: readonly Entry[],
  answersOf: (id: string) => readonly CaseAnswer[] | undefined,
  rated: readonly RatedTrial[] = [],
): LoggedRound[] {
  const { takenBack } = trialsNow(entries);
  const rounds: { changed?: true; case?: string; answers: readonly CaseAnswer[]; results: CaseResult[] }[] =
    [];
  const since = changesSince(entries);
  const told = new Set<string>();
  /** A lasting change makes another bike of it, also where no other interview came after it. */
  const marked = (): void => {
    if (since.any())
      for (const round of rounds)
        round.results = round.results.map((result) => ({ ...result, changedAfter: true }));
    since.none();
  };
  const add = (from: string | undefined, result: CaseResult): void => {
    const last = rounds.at(-1);
    const sameCase = last !== undefined && (from === undefined || last.case === from);
    if (!sameCase) {
      const answers = from === undefined || told.has(from) ? [] : (answersOf(from) ?? []);
      if (from !== undefined) told.add(from);
      rounds.push({
        ...(since.any() && rounds.length > 0 ? { changed: true as const } : {}),
        ...(from === undefined ? {} : { case: from }),
        answers,
        results: [],
      });
    }
    marked();
    rounds.at(-1)!.results.push(result);
  };
  for (const entry of entries) {
    const { at, result, trial, case: from } = entry;
    since.take(entry);
    if (result === undefined) continue;
    const { change, outcome, kept, points, error } = result;
    const known = rated.find(({ id }) => id === trial)?.results.find((one) => isSameDeed(one.change, change));
    const measured = points === undefined || error === undefined ? known : { points, error };
    add(from, {
      change,
      outcome,
      kept: kept && !(trial !== undefined && takenBack.has(trial)),
      ...(measured?.points === undefined ? {} : { points: measured.points }),
      ...(measured?.error === undefined ? {} : { error: measured.error }),
      ...(trial === undefined ? {} : { trial }),
      date: at.slice(0, 10),
    });
  }
  const ended = new Set(entries.flatMap(({ result, trial }) => (result === undefined ? [] : [trial])));
  for (const { id, case: from, results } of rated)
    if (!ended.has(id)) for (const result of results) add(from, { ...result, kept: false, trial: id });
  marked();
  return rounds.map((round) => ({ ...round, results: keptLast(round.results) }));
}

/** Whether something was set or fitted after the last trial, and not taken back: then it is another bike. */
export function changedSince(entries: readonly Entry[]): boolean {
  const since = changesSince(entries);
  for (const entry of entries) {
    since.take(entry);
    if (entry.result !== undefined) since.none();
  }
  return since.any();
}

/**
 * What was changed, in no trial, since the last time that it was asked for none, and stands otherwise than then. What a trial
 * turned, and whether it was taken back or put on again, is told by its results.
 */
function changesSince(entries: readonly Entry[]): { take(entry: Entry): void; none(): void; any(): boolean } {
  const { ofTrials } = trialsNow(entries);
  /** setting → where it stood */
  const open = new Map<string, Value | undefined>();
  return {
    take: ({ entry, kind, trial, changes = [] }) => {
      if ((kind !== 'change' && kind !== 'undo') || trial !== undefined || ofTrials.has(entry)) return;
      for (const { setting, from, to } of changes) {
        if (!open.has(setting)) open.set(setting, from);
        else if (open.get(setting) === to) open.delete(setting);
      }
    },
    none: () => open.clear(),
    any: () => open.size > 0,
  };
}

/** A trial's steps were ridden against the same reference: what was taken back comes before what changed the bike. */
function keptLast(results: readonly CaseResult[]): CaseResult[] {
  const trials = [...new Set(results.map((result) => result.trial))];
  return trials.flatMap((trial) => {
    const own = results.filter((result) => result.trial === trial);
    return [...own.filter((result) => !result.kept), ...own.filter((result) => result.kept)];
  });
}

/**
 * Where the settings that trials moved for good stood before the first of them: what the sheet said when the first
 * round was told.
 */
export function standsBefore(
  entries: readonly Entry[],
): { readonly setting: string; readonly value: number | string; readonly unit?: string }[] {
  const { takenBack } = trialsNow(entries);
  const first = new Map<string, { setting: string; value: number | string; unit?: string }>();
  for (const entry of entries) {
    if (entry.trial === undefined || entry.kind !== 'change' || takenBack.has(entry.trial)) continue;
    for (const { setting, from, unit } of entry.changes ?? []) {
      // Sag and pressure read now stay as they are: taking a pressure back would take its reading off the sheet.
      if (unit !== 'clicks' || from === undefined || first.has(setting)) continue;
      first.set(setting, { setting, value: from, unit });
    }
  }
  return [...first.values()];
}
