/** A change in words. */
import { amountWords, settingWords } from '../../bike/setting-words.ts';
import type { Deed } from '../../bike/deed.ts';
import type { BikeSheet } from '../../bike/sheet.ts';

/** `front low-speed rebound 2 clicks out`; what has only a name is called by it. */
export function changeWords(deed: Deed, sheet?: BikeSheet): string {
  if ('name' in deed) return deed.name;
  return deed.changes
    .map(
      ({ setting, by, unit }) =>
        `${settingWords(setting, sheet)} ${amountWords(by > 0, String(Math.abs(by)), unit)}`,
    )
    .join(', ');
}

/** The same where nobody said how far: `rear spring less`, `front rebound opened`. */
export function wayWords(deed: Deed): string {
  if ('name' in deed) return deed.name;
  return deed.changes
    .map(({ setting, by, unit }) => {
      const [more, less] = unit === 'clicks' ? ['opened', 'closed'] : ['more', 'less'];
      return `${settingWords(setting)} ${by > 0 ? more : less}`;
    })
    .join(', ');
}
