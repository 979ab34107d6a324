/** How to take back what was tried, in words. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { roomFor } from '../../advice/step/room-left.ts';
import { spanWords, settingWords } from '../../bike/setting-words.ts';
import { wayBack, type Change } from '../../bike/change.ts';
import type { Tried } from '../case.ts';
import { stemOf } from './could-be-turned.ts';

/**
 * The way back, where the sheet says what it stands at never past a stop. Of two circuits of one name a single knob was
 * turned: nobody here knows which, and the rider does, so it goes by the name that he gave it.
 * @returns undefined where the bike has no room for any of it
 */
export function backInWords(
  { rules, sheet }: PreparedBike,
  { by }: Tried,
  changes: readonly Change[],
): string | undefined {
  const back = wayBack(changes);
  const isOpen = (one: Change): boolean =>
    back.some((other) => other !== one && other.setting !== one.setting && stemOf(other) === stemOf(one));
  const nameOf = (one: Change): string =>
    isOpen(one)
      ? settingWords(stemOf(one))
      : (rules.settings.find(({ id }) => id === one.setting)?.name ?? settingWords(one.setting, sheet));
  const lines = back.flatMap((whole) => {
    // Of a knob that nobody here can name the sheet does not say where it stands.
    const room = isOpen(whole) ? undefined : roomFor(sheet, whole, rules.reasons);
    if (room?.can === false) return [];
    const { by: amount, unit, from, to } = { from: undefined, to: undefined, ...(room?.step ?? whole) };
    const way = unit === 'clicks' ? (amount > 0 ? 'out' : 'in') : amount > 0 ? 'more' : 'less';
    if (by === undefined) return [`${nameOf(whole)}, as far as it was turned (${way})`];
    const size = Math.abs(amount);
    const far = `${nameOf(whole)}, ${size} ${size === 1 ? unit.replace(/s$/, '') : unit} ${way}`;
    if (from === undefined || to === undefined || unit === 'positions') return [far];
    const cut = room?.note === undefined ? '' : `; ${room.note}`;
    return [`${far} (${spanWords(from, to, unit)}${cut})`];
  });
  return lines.length === 0 ? undefined : [...new Set(lines)].join('; ');
}
