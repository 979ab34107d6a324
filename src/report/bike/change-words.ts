/** A change in words. */
import { amountWords } from '../../bike/amount-words.ts';
import { notationOf, parseChange } from '../../bike/change.ts';
import { settingWords } from '../../bike/setting-words.ts';
import type { BikeSheet } from '../../bike/sheet.ts';

/** `front.rebound.low+2` → `front low-speed rebound 2 clicks out`; what is no change stays as it is. */
export function changeWords(change: string, sheet?: BikeSheet): string {
  const read = notationOf(change);
  if (read === undefined) return change;
  const { setting, by } = read;
  // A pack's setting is not in the table that is at hand here; what goes without a unit is mostly a knob.
  const unit = read.unit || (parseChange(change).changes[0]?.unit ?? 'clicks');
  return `${settingWords(setting, sheet)} ${amountWords(by > 0, String(Math.abs(by)), unit)}`;
}
