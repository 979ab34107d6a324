/** What a trial kept and is not on any more, as the middle of a sentence. */
import { settingWords } from '../../bike/setting-words.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { shownValue } from '../../logbook/entry.ts';
import type { LeftGood } from '../../logbook/left-good.ts';
import { reasonIn, type Reasons } from '../../rulebase/reasons.ts';

export function leftGoodWords(
  { setting, unit, good, now, trial }: LeftGood,
  reasons: Reasons,
  sheet?: BikeSheet,
): string {
  return reasonIn(reasons, 'left-good', {
    trial,
    name: settingWords(setting, sheet),
    good: shownValue(good, unit),
    now: shownValue(now, unit),
  });
}
