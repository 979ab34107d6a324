/** Which trials' changes are on the bike as it stands, whatever was taken back and put on again since. */
import type { Entry, SettingChange, Value } from './entry.ts';

export interface TrialsNow {
  /** the trials whose change was on the bike, and is not any more */
  readonly takenBack: ReadonlySet<string>;
  /** entries of no trial that only take the change of one back, or put it on again, by number */
  readonly ofTrials: ReadonlySet<number>;
}

interface OnBike {
  readonly trial: string;
  /** the entries that set it */
  readonly entries: Set<number>;
  /** setting → where it stood before the trial, and after it */
  readonly moved: Map<string, { readonly from: Value | undefined; readonly to: Value }>;
  on: boolean;
}

/** An undo takes it back, and so does whoever sets or finds it where it stood before; where the trial left it, it is on again. */
export function trialsNow(entries: readonly Entry[]): TrialsNow {
  const found: OnBike[] = [];
  const ofTrials = new Set<number>();
  for (const { entry, kind, trial, undoes, changes = [] } of entries) {
    if (trial !== undefined && kind === 'change') {
      add(found, trial, entry, changes);
      continue;
    }
    const undone = undoes === undefined ? undefined : found.find((one) => one.entries.has(undoes));
    if (undone !== undefined) {
      undone.on = false;
      ofTrials.add(entry);
      continue;
    }
    // What is counted tells as well where it stands.
    const flipped = changes.filter((change) => flips(found, change));
    if (flipped.length > 0 && flipped.length === changes.length) ofTrials.add(entry);
  }
  return {
    takenBack: new Set(found.flatMap(({ trial, on }) => (on ? [] : [trial]))),
    ofTrials,
  };
}

function add(found: OnBike[], trial: string, entry: number, changes: readonly SettingChange[]): void {
  let one = found.find((other) => other.trial === trial);
  if (one === undefined) found.push((one = { trial, entries: new Set(), moved: new Map(), on: true }));
  one.entries.add(entry);
  one.on = true;
  for (const { setting, from, to } of changes)
    one.moved.set(setting, { from: one.moved.get(setting)?.from ?? from, to });
}

/** Whether a change takes that of a trial back, with those that came upon it, or puts it on again. */
function flips(found: readonly OnBike[], { setting, to }: SettingChange): boolean {
  const own = found.filter(({ moved }) => moved.has(setting));
  for (let i = own.length - 1; i >= 0; i--) {
    const one = own[i]!;
    const moved = one.moved.get(setting)!;
    if (one.on ? moved.from !== to : moved.to !== to) continue;
    if (one.on) for (const later of own.slice(i)) later.on = false;
    else one.on = true;
    return true;
  }
  return false;
}
