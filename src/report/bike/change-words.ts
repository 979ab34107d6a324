/** A change in words. */
import { settingWords } from '../../bike/setting-words.ts';

/** `front.rebound.low+2` → `front low-speed rebound 2 clicks out`; what is no change stays as it is. */
export function changeWords(change: string): string {
  const [, setting, sign, amount, unit] = /^([^+]*?)([+-])(\d+(?:\.\d+)?)([A-Za-z/]*)$/.exec(change) ?? [];
  if (setting === undefined) return change;
  return `${settingWords(setting)} ${amountWords(sign === '+', amount!, unit === '' ? 'clicks' : unit!)}`;
}

/** `2 clicks out`, `1 spacer less`, `5 psi more` */
export function amountWords(more: boolean, amount: string, unit: string): string {
  const units = amount === '1' ? unit.replace(/s$/, '') : unit;
  if (unit === 'clicks') return `${amount} ${units} ${more ? 'out' : 'in'}`;
  return `${amount} ${units} ${more ? 'more' : 'less'}`;
}
