/** What was tried before the interview of the very turn that an adjustment is. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Change } from '../../bike/change.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import { stemOf } from './could-be-turned.ts';
import type { Placed } from './place-tried.ts';

/**
 * The last report that it did not help: of the same setting turned the same way, or of the adjustment by its name. Where the
 * bike has a knob for each circuit and nobody said which one was turned, it is a trial of neither.
 */
export function triedInVain<T extends Pick<Placed, 'tried' | 'change' | 'changes'>>(
  { fact }: Pick<PreparedBike, 'fact'>,
  placed: readonly T[],
  { change, id }: Pick<Adjustment, 'change' | 'id'>,
): T | undefined {
  return placed.findLast(
    ({ tried, changes, change: named }) =>
      (tried.result === 'same' || tried.result === 'worse') &&
      (('name' in named && named.name === id) ||
        changes.some(
          (one) =>
            one.setting === change?.setting &&
            one.by > 0 === change.by > 0 &&
            !(tried.change === undefined && isOneOfTwo(fact, one, changes)),
        )),
  );
}

/** Whether another of these may have been turned instead: the bike has both knobs, and one name for both was said. */
function isOneOfTwo(fact: PreparedBike['fact'], one: Change, changes: readonly Change[]): boolean {
  const isKnob = ({ setting }: Change): boolean => fact(setting) === 'knob';
  return (
    isKnob(one) &&
    changes.some((other) => other.setting !== one.setting && stemOf(other) === stemOf(one) && isKnob(other))
  );
}
