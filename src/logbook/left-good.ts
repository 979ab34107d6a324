/** Settings that a trial kept, and that somebody moved since without one: what was rated well is known, and what is on is not. */
import { changesOf } from '../bike/deed.ts';
import type { Entry, Value } from './entry.ts';
import { standings, type Standing } from './replay.ts';

export interface LeftGood {
  readonly setting: string;
  readonly unit?: string;
  /** where the trial left it, and where it stands */
  readonly good: Value;
  readonly now: Value;
  readonly trial: string;
}

export function leftGood(entries: readonly Entry[]): LeftGood[] {
  const kept = new Map<string, { readonly good: Value; readonly trial: string }>();
  for (const { result, trial } of entries) {
    if (result?.kept !== true || trial === undefined) continue;
    const set = entries.filter((entry) => entry.kind === 'change' && entry.trial === trial);
    for (const { setting, to } of set.flatMap(({ changes = [] }) => changes))
      kept.set(setting, { good: to, trial });
  }
  const now = standings(entries);
  return [...kept].flatMap(([setting, one]): LeftGood[] => {
    const stands = now[setting];
    const by = entries.find(({ entry }) => entry === stands?.entry);
    // What a later trial moved was rated as well.
    if (stands === undefined || stands.value === one.good || by?.trial !== undefined) return [];
    if (wasRefused(entries, setting, stands, one.good)) return [];
    return [
      { setting, ...one, now: stands.value, ...(stands.unit === undefined ? {} : { unit: stands.unit }) },
    ];
  });
}

/** Whether the way back was ridden from where it stands now, and not kept: then this was rated as well. */
function wasRefused(
  entries: readonly Entry[],
  setting: string,
  { value, entry }: Standing,
  good: Value,
): boolean {
  return entries.some(
    ({ entry: at, result }) =>
      at > entry &&
      result?.kept === false &&
      changesOf(result.change).some(
        // Positions by name lie no way: a step of such a setting that was not kept is the way back.
        (step) =>
          step.setting === setting &&
          (typeof good === 'string' ||
            typeof value === 'string' ||
            Math.sign(step.by) === Math.sign(good - value)),
      ),
  );
}
