/** A step that failed on the bike as it stands, where a larger one the same way was rated better: that one is the step. */
import type { Possibility } from '../advice/feasibility.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { amountIn } from '../bike/change.ts';
import { changesOf, isSameDeed } from '../bike/deed.ts';
import type { Case, CaseResult, Round } from './case.ts';
import { wasInVain } from './ridden-in-vain.ts';
import { riddenAsItStands, roundsOfCase } from './retold.ts';

/** Where the last step of an adjustment that was too small to be felt stands in for one that was felt. */
const LARGER = 'the smaller step made no difference, and this one was rated better';

/**
 * The bike with such steps as large as they were ridden. What fails at a part of the way says nothing against the whole of
 * it; a step that was rated better and not kept is offered again, not forgotten.
 * @param clear as in `numbers.trial`
 */
export function asLargeAsRatedBetter(
  bench: PreparedBike,
  kase: Pick<Case, 'earlier'> & Round,
  clear: number,
): PreparedBike {
  const since = riddenAsItStands(roundsOfCase(kase));
  if (!since.some(({ kept, outcome }) => !kept && outcome === 'better')) return bench;
  let changed = false;
  const possible = bench.possible.map((one): Possibility => {
    if (!one.can || one.step === undefined) return one;
    const { step } = one;
    const last = since.findLast(({ change }) => isSameDeed(change, { changes: [step] }));
    if (last === undefined || last.outcome !== 'same' || !wasInVain(last, clear)) return one;
    const by = Math.max(0, ...since.map((result) => ratedBetter(result, since, step)));
    if (by <= Math.abs(step.by) + 1e-9) return one;
    changed = true;
    const whole = Number((Math.sign(step.by) * by).toFixed(3));
    return {
      ...one,
      step: {
        ...step,
        by: whole,
        ...(step.from === undefined ? {} : { to: Number((step.from + whole).toFixed(3)) }),
      },
      note: [...(one.note === undefined ? [] : [one.note]), LARGER].join('; '),
    };
  });
  return changed ? { ...bench, possible } : bench;
}

/** How far the one change of a trial that was rated better, and not worse since, goes the way of a step; 0 otherwise. */
function ratedBetter(
  { change, kept, outcome }: CaseResult,
  since: readonly CaseResult[],
  step: { readonly setting: string; readonly by: number; readonly unit: Parameters<typeof amountIn>[1] },
): number {
  const [one, ...others] = changesOf(change);
  if (kept || outcome !== 'better' || one === undefined || others.length > 0) return 0;
  if (one.setting !== step.setting || Math.sign(one.by) !== Math.sign(step.by)) return 0;
  const last = since.findLast((result) => isSameDeed(result.change, change));
  return last?.outcome === 'better' ? Math.abs(amountIn(one, step.unit) ?? 0) : 0;
}
