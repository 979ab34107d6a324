/** An entry as it stands in its file: what was tried is a text there. */
import { notationOf } from '../bike/change.ts';
import { printDeed, readDeed, type Deed } from '../bike/deed.ts';
import { OWN_UNITS, type OwnSetting } from '../bike/own-setting.ts';
import { changeable } from '../bike/settings.ts';
import type { Entry, EntryDraft, TrialOutcome } from './entry.ts';

interface WrittenOutcome extends Omit<TrialOutcome, 'change'> {
  /** in change notation, e.g. front.rebound.low+2 */
  readonly change: string;
}

type Written<E extends EntryDraft> = Omit<E, 'result'> & { readonly result?: WrittenOutcome };
export type WrittenEntry = Written<Entry>;

export function asWritten<E extends EntryDraft>(entry: E): Written<E> {
  const { result, ...rest } = entry;
  return result === undefined ? rest : { ...rest, result: { ...result, change: printDeed(result.change) } };
}

/** @param own the settings that packs in use add */
export function asRead(entry: WrittenEntry, own: readonly OwnSetting[]): Entry {
  const { result, ...rest } = entry;
  return result === undefined ? rest : { ...rest, result: { ...result, change: deedIn(result.change, own) } };
}

/** Of a pack that is not at hand is what is told of no setting here; what goes without a unit is mostly a knob. */
function deedIn(text: string, own: readonly OwnSetting[]): Deed {
  const deed = readDeed(text, own);
  const read = 'name' in deed ? notationOf(text.trim()) : undefined;
  if (read === undefined || changeable(own).has(read.setting)) return deed;
  const unit = read.unit === '' ? 'clicks' : OWN_UNITS.find((one) => one === read.unit);
  return unit === undefined ? deed : { changes: [{ ...read, unit }] };
}
