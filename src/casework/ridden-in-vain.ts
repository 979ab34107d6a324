/** Steps that were ridden on the bike as it stands and rated no better: they do not come first again. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { parseChange, printChange } from '../bike/change.ts';
import type { Case, CaseResult } from './case.ts';

/** Ratings that scatter more than this, in points, show no step to be useless. Judgement. */
const CLEAR = 0.6;

/**
 * @returns why, by index of the adjustment whose step it is; undefined where there is none. What was ridden before the
 * last change that was kept was ridden on another bike, and is left to the belief.
 */
export function riddenInVain(
  bench: PreparedBike,
  { earlier, results }: Pick<Case, 'earlier' | 'results'>,
): ReadonlyMap<number, string> | undefined {
  const all = [...earlier.flatMap((round) => round.results), ...results];
  const since = all.slice(all.findLastIndex(({ kept }) => kept) + 1).filter(wasInVain);
  if (since.length === 0) return undefined;
  const steps = new Map(since.map((result) => [printChange(parseChange(result.change).changes), result]));
  const found = new Map<number, string>();
  bench.possible.forEach((possible, adjustment) => {
    const result =
      possible.can && possible.step !== undefined ? steps.get(printChange([possible.step])) : undefined;
    if (result !== undefined) found.set(adjustment, whyNot(result));
  });
  return found.size === 0 ? undefined : found;
}

function wasInVain({ kept, outcome, error }: CaseResult): boolean {
  if (kept || error === undefined) return false;
  return outcome === 'worse' || (outcome === 'same' && error <= CLEAR);
}

function whyNot({ date, outcome }: CaseResult): string {
  const when = date === undefined ? '' : ` on ${date}`;
  return `it was tested${when} and rated ${outcome === 'worse' ? 'worse' : 'no different'}`;
}
