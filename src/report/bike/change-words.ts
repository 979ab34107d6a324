/** A change in words. */
import { decapital } from '../../form/text.ts';
import { amountWords, settingWords } from '../../bike/setting-words.ts';
import type { Deed } from '../../bike/deed.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';

/** What has only a name, by that of the rules. */
type Named = Pick<CompiledRules, 'adjustments'>;

/** `front low-speed rebound 2 clicks out`; what has only a name in the words of the rules, else called by it. */
export function changeWords(deed: Deed, sheet?: BikeSheet, rules?: Named): string {
  if ('name' in deed) return nameWords(deed.name, rules);
  return deed.changes
    .map(
      ({ setting, by, unit }) =>
        `${settingWords(setting, sheet)} ${amountWords(by > 0, String(Math.abs(by)), unit)}`,
    )
    .join(', ');
}

/** The same where nobody said how far: `rear spring less`, `front rebound opened`. */
export function wayWords(deed: Deed, rules?: Named): string {
  if ('name' in deed) return nameWords(deed.name, rules);
  return deed.changes
    .map(({ setting, by, unit }) => {
      const [more, less] = unit === 'clicks' ? ['opened', 'closed'] : ['more', 'less'];
      return `${settingWords(setting)} ${by > 0 ? more : less}`;
    })
    .join(', ');
}

/** `let air out of the front spring` */
function nameWords(name: string, rules: Named | undefined): string {
  const words = rules?.adjustments.find(({ id }) => id === name)?.do;
  return words === undefined ? name : decapital(words);
}

/** What came of it, as it is said. */
export function outcomeWord(outcome: string): string {
  return outcome === 'same' ? 'no difference' : outcome === 'not-sure' ? 'not sure' : outcome;
}
