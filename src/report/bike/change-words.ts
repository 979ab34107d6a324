/** A change in words. */
import { notationOf, parseChange } from '../../bike/change.ts';
import { settingWords } from '../../bike/setting-words.ts';

/** `front.rebound.low+2` → `front low-speed rebound 2 clicks out`; what is no change stays as it is. */
export function changeWords(change: string): string {
  const read = notationOf(change);
  if (read === undefined) return change;
  const { setting, by } = read;
  // A pack's setting is not in the table that is at hand here; what goes without a unit is mostly a knob.
  const unit = read.unit || (parseChange(change).changes[0]?.unit ?? 'clicks');
  return `${settingWords(setting)} ${amountWords(by > 0, String(Math.abs(by)), unit)}`;
}

/** `2 clicks out`, `1 spacer less`, `5 psi more` */
export function amountWords(more: boolean, amount: string, unit: string): string {
  const units = amount === '1' ? unit.replace(/s$/, '') : unit;
  if (unit === 'clicks') return `${amount} ${units} ${more ? 'out' : 'in'}`;
  return `${amount} ${units} ${more ? 'more' : 'less'}`;
}
