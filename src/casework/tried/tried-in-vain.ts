/** What was tried before the interview of the very turn that an adjustment is. */
import type { Adjustment } from '../../rulebase/compiled.ts';
import type { Placed } from './place-tried.ts';

/** The last report that it did not help: of the same setting turned the same way, or of the adjustment by its name. */
export function triedInVain<T extends Pick<Placed, 'tried' | 'change' | 'changes'>>(
  placed: readonly T[],
  { change, id }: Pick<Adjustment, 'change' | 'id'>,
): T | undefined {
  return placed.findLast(
    ({ tried, changes, change: named }) =>
      (tried.result === 'same' || tried.result === 'worse') &&
      (('name' in named && named.name === id) ||
        changes.some((one) => one.setting === change?.setting && one.by > 0 === change.by > 0)),
  );
}
