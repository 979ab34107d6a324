/** What was ridden before of a step that is advised now: the same step again, or the way back of one that was kept. */
import { changesOf, isSameDeed, type Deed } from '../bike/deed.ts';
import type { CaseResult, Round } from './case.ts';
import { riddenAsItStands } from './retold.ts';

export interface RiddenBefore {
  /** again: this step, not kept; reversal: the other way was kept, and stands */
  readonly kind: 'again' | 'reversal';
  readonly result: CaseResult;
  /** whether it was ridden on the bike as it stands */
  readonly stands: boolean;
  /** whether it is the very step, and not another amount of it */
  readonly same: boolean;
}

/** @param step one that turns no setting was never tried as one */
export function riddenBefore(rounds: readonly Round[], step: Deed): RiddenBefore[] {
  const results = rounds.flatMap((round) => round.results);
  if (results.length === 0) return [];
  const asked = directions(step);
  const now = new Set(riddenAsItStands(rounds));
  const touches = (result: CaseResult, sign: number): boolean =>
    directions(result.change).some((one) =>
      asked.some(({ setting, way }) => one.setting === setting && one.way === sign * way),
    );
  const tries = results.filter((result) => !result.kept && touches(result, 1));
  // The very step that is advised is what somebody remembers; another amount of it says something besides.
  const isSame = (result: CaseResult): boolean => isSameDeed(result.change, step);
  const again = [tries.findLast(isSame), tries.findLast((result) => !isSame(result))].filter(
    (result) => result !== undefined,
  );
  const kept = results.findLast((result) => result.kept && (touches(result, 1) || touches(result, -1)));
  return [
    ...again.map(
      (result) => ({ kind: 'again', result, stands: now.has(result), same: isSame(result) }) as const,
    ),
    ...(kept === undefined || !touches(kept, -1)
      ? []
      : [{ kind: 'reversal', result: kept, stands: now.has(kept), same: isSame(kept) } as const]),
  ];
}

function directions(deed: Deed): { setting: string; way: number }[] {
  return changesOf(deed).map(({ setting, by }) => ({ setting, way: Math.sign(by) }));
}
