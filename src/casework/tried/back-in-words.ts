/** How to take back what was tried, in words. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { wayBack, type Change } from '../../bike/change.ts';
import { settingWords } from '../../bike/setting-words.ts';
import type { Tried } from '../case.ts';
import { stemOf } from './could-be-turned.ts';

/** The way back. Of two circuits of one name a single knob was turned: nobody here knows which, and the rider does. */
export function backInWords(
  { rules, sheet }: PreparedBike,
  { by }: Tried,
  changes: readonly Change[],
): string {
  const back = wayBack(changes);
  const isOpen = (one: Change): boolean =>
    back.some((other) => other !== one && other.setting !== one.setting && stemOf(other) === stemOf(one));
  const nameOf = (one: Change): string =>
    isOpen(one)
      ? `the ${settingWords(stemOf(one))} knob that was turned`
      : (rules.settings.find(({ id }) => id === one.setting)?.name ?? settingWords(one.setting, sheet));
  const lines = back.map((one) => {
    const { by: amount, unit } = one;
    const way = unit === 'clicks' ? (amount > 0 ? 'open' : 'closed') : amount > 0 ? 'more' : 'less';
    const size = Math.abs(amount);
    const far =
      by === undefined ? 'as far as it was turned' : `${size} ${size === 1 ? unit.replace(/s$/, '') : unit}`;
    return `${nameOf(one)}, ${far} ${by === undefined ? `(${way})` : way}`;
  });
  return [...new Set(lines)].join('; ');
}
