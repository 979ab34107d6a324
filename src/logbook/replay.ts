/** What a history adds up to: where everything stands, what differs between two times, what nobody tried yet. */
import type { Entry, SettingChange, Value } from './entry.ts';
import { trialsNow } from './trials-now.ts';
import type { Stand } from '../bike/setting-values.ts';

export interface Standing {
  readonly value: Value;
  readonly unit?: string;
  /** the entry that set it */
  readonly entry: number;
}

export type Standings = Readonly<Record<string, Standing>>;

export interface Difference {
  readonly setting: string;
  readonly unit?: string;
  readonly before?: Value;
  readonly after?: Value;
  /** the entries in between that touched it */
  readonly entries: readonly number[];
}

/** Where every setting stands after these entries, in order of name. */
export function standings(entries: readonly Entry[]): Standings {
  const found = new Map<string, Standing>();
  for (const entry of entries) {
    for (const { setting, to, unit } of entry.changes ?? []) {
      found.set(setting, { value: to, entry: entry.entry, ...(unit === undefined ? {} : { unit }) });
    }
  }
  return Object.fromEntries([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** The entries made up to a moment. Where the clock went back, an entry counts as made when the one above it was. */
export function upTo(entries: readonly Entry[], moment: Date): readonly Entry[] {
  let latest = -Infinity;
  return entries.filter((entry) => {
    latest = Math.max(latest, Date.parse(entry.at));
    return latest <= moment.getTime();
  });
}

/** What stands differently at the second moment, whichever of the two is earlier. */
export function difference(entries: readonly Entry[], one: Date, other: Date): Difference[] {
  const [from, to] = one <= other ? [one, other] : [other, one];
  const early = upTo(entries, from);
  const late = upTo(entries, to);
  const before = standings(early);
  const after = standings(late);
  const between = late.slice(early.length);
  return Object.entries(after).flatMap(([setting, { value, unit }]): Difference[] => {
    const was = before[setting]?.value;
    if (was === value) return [];
    const touched = between.filter((entry) => entry.changes?.some((change) => change.setting === setting));
    return [
      {
        setting,
        ...(unit === undefined ? {} : { unit }),
        ...(was === undefined ? {} : { before: was }),
        after: value,
        entries: touched.map((entry) => entry.entry),
      },
    ];
  });
}

/**
 * Changes of numbers that nobody has tried yet: not taken back, and no result about that setting since. Parts and
 * stock-takings need no trial, nor does what a trial tested and is only put on again, or taken back.
 */
export function untested(entries: readonly Entry[]): Entry[] {
  const undone = new Set(entries.flatMap((entry) => entry.undoes ?? []));
  const { ofTrials } = trialsNow(entries);
  return entries.filter((entry, i) => {
    if (entry.kind !== 'change' || undone.has(entry.entry) || ofTrials.has(entry.entry)) return false;
    const numbers = (entry.changes ?? []).filter(({ to }) => typeof to === 'number');
    const later = entries.slice(i + 1);
    const judged = ({ setting, to }: SettingChange): boolean =>
      later.some(
        (one) =>
          one.kind === 'start' ||
          one.result?.setting === setting ||
          // A coil's preload and rate are tried as its spring.
          (one.result !== undefined && setting.startsWith(`${one.result.setting}.`)) ||
          (one.kind === 'change' && one.changes?.some((change) => change.setting === setting)) ||
          // Counted elsewhere, it is not what stands there.
          (one.kind === 'counted' && one.changes?.some((each) => each.setting === setting && each.to !== to)),
      );
    return numbers.length > 0 && !numbers.every(judged);
  });
}

/**
 * Whether the trial that was judged last kept its change, and whether that is off the bike again; undefined before any was
 * judged. Of several results of one trial one that was kept is enough.
 */
export function keptLast(
  entries: readonly Entry[],
): { readonly kept: boolean; readonly takenBack: boolean } | undefined {
  const last = entries.findLast((entry) => entry.result !== undefined);
  if (last === undefined) return undefined;
  return {
    kept: entries.some(({ trial, result }) => trial === last.trial && result?.kept === true),
    takenBack: last.trial !== undefined && trialsNow(entries).takenBack.has(last.trial),
  };
}

/** Where a bike's sheet and its log disagree. */
export interface Drift {
  readonly setting: string;
  readonly sheet: Stand['value'];
  readonly log: Stand['value'];
  readonly unit: string;
  /** the entry of the log that has it so */
  readonly entry: number;
}

/**
 * What the sheet has elsewhere than the log: it was turned, or edited, without being written down. Readings have no
 * unit and are left out: sag is measured again after every change of the spring, and then only the sheet has it.
 */
export function driftOf(stands: readonly Stand[], logged: Standings): Drift[] {
  return stands.flatMap(({ setting, value, unit }): Drift[] => {
    const known = Object.hasOwn(logged, setting) ? logged[setting] : undefined;
    if (known === undefined || unit === undefined || known.unit !== unit || known.value === value) return [];
    return [{ setting, sheet: value, log: known.value, unit, entry: known.entry }];
  });
}
