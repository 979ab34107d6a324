/** Undo and redo: which entry is taken back next, and the entry that does so. The history itself only grows. */
import { LogError } from '../disk/errors.ts';
import type { Entry, EntryDraft, SettingChange } from './entry.ts';
import { standings, type Standings } from './replay.ts';

/** `undo` takes the last change back; `redo` takes back the last undo, and is a change that can be undone. */
export type TakeBack = 'undo' | 'redo';

/** What the next of them takes back; undefined where there is nothing. */
export function takenBackNext(entries: readonly Entry[], what: TakeBack): Entry | undefined {
  return what === 'undo' ? lastUndoable(entries) : lastRedoable(entries);
}

/**
 * The last change that was not taken back yet. Counting the bike afresh (`start`) draws a line: what was before it is no
 * longer the way back.
 */
function lastUndoable(entries: readonly Entry[]): Entry | undefined {
  const undone = new Set(entries.flatMap((entry) => entry.undoes ?? []));
  const since = entries.slice(entries.findLastIndex((entry) => entry.kind === 'start') + 1);
  return since.findLast((entry) => entry.kind === 'change' && !undone.has(entry.entry));
}

/**
 * The last undo that was not taken back yet, unless something else was set since, or one of its settings counted: then that is
 * what is wanted.
 */
function lastRedoable(entries: readonly Entry[]): Entry | undefined {
  let undone: Entry[] = [];
  for (const entry of entries) {
    if (entry.kind === 'undo') undone.push(entry);
    else if (entry.kind === 'change' && entry.undoes !== undefined)
      undone = undone.filter((one) => one.entry !== entry.undoes);
    else if (entry.kind === 'change' || entry.kind === 'start') undone = [];
    else if (entry.kind === 'counted') undone = undone.filter((one) => !overlap(one, entry));
  }
  return undone.at(-1);
}

function overlap(one: Entry, other: Entry): boolean {
  const settings = new Set(other.changes?.map(({ setting }) => setting));
  return one.changes?.some(({ setting }) => settings.has(setting)) === true;
}

/** The changes that take an entry back, from where its settings stand now, last one first. */
export function reversed(entry: Entry, now: Standings): SettingChange[] {
  return [...(entry.changes ?? [])].reverse().flatMap(({ setting, from, unit }): SettingChange[] => {
    if (from === undefined) return [];
    const stands = now[setting];
    return [
      {
        setting,
        ...(stands === undefined ? {} : { from: stands.value }),
        to: from,
        ...(unit === undefined ? {} : { unit }),
      },
    ];
  });
}

/** @throws LogError when there is nothing to take back, or nobody knows where to */
export function takeBackDraft(
  entries: readonly Entry[],
  what: TakeBack,
  reason: string | undefined,
): EntryDraft & { readonly undoes: number } {
  const last = takenBackNext(entries, what);
  if (last === undefined) throw nothing(what);
  const unknown = (last.changes ?? []).filter(({ from }) => from === undefined);
  if (unknown.length > 0)
    throw new LogError(
      'no-way-back',
      `Entry ${last.entry} does not say how ${unknown.map(({ setting }) => setting).join(', ')} was set before.`,
      'Set it to the recommended setting, count it, and record that with earshot log start.',
    );
  return {
    kind: what === 'undo' ? 'undo' : 'change',
    changes: reversed(last, standings(entries)),
    reason: reason ?? `takes back entry ${last.entry}`,
    undoes: last.entry,
  };
}

function nothing(what: TakeBack): LogError {
  return what === 'undo'
    ? new LogError(
        'nothing-to-undo',
        'There is no change to undo: the bike is as it was last counted.',
        'Nothing needs to be done.',
      )
    : new LogError(
        'nothing-to-redo',
        'There is no undo to take back: nothing was undone since the last change.',
        'To put something on, record it: earshot log change.',
      );
}
