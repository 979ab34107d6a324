/** Steps that were ridden on the bike as it stands and rated no better: they do not come first again. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { printChange, type Change } from '../bike/change.ts';
import { changesOf, isSameDeed, type Deed } from '../bike/deed.ts';
import type { Case, CaseResult, Round } from './case.ts';
import { riddenAsItStands, roundsOfCase } from './retold.ts';

/** Ratings that scatter more than this, in points, show no step to be useless. Judgement. */
const CLEAR = 0.6;

/**
 * @returns why, by index of the adjustment whose step it is; undefined where there is none. What was ridden before the
 * last change that stayed on was ridden on another bike, and is left to the belief.
 */
export function riddenInVain(
  bench: PreparedBike,
  kase: Pick<Case, 'earlier'> & Round,
): ReadonlyMap<number, string> | undefined {
  const since = riddenAsItStands(roundsOfCase(kase)).filter(wasInVain);
  const found = new Map<number, string>();
  for (const [adjustment, result] of inVain(bench, since)) found.set(adjustment, whyNot(result, since));
  return found.size === 0 ? undefined : found;
}

/** What is left of such steps: half of one that was rated worse, as a change, by index of its adjustment. */
export function leftToTry(
  bench: PreparedBike,
  kase: Pick<Case, 'earlier'> & Round,
): ReadonlyMap<number, string> {
  const since = riddenAsItStands(roundsOfCase(kase)).filter(wasInVain);
  const found = new Map<number, string>();
  for (const [adjustment, { outcome, change }] of inVain(bench, since)) {
    const less = outcome === 'worse' ? smaller(change, since) : undefined;
    if (less !== undefined) found.set(adjustment, printChange([less]));
  }
  return found;
}

/** The adjustments whose very step was ridden so. */
function inVain(bench: PreparedBike, since: readonly CaseResult[]): (readonly [number, CaseResult])[] {
  if (since.length === 0) return [];
  return bench.possible.flatMap((possible, adjustment) => {
    if (!possible.can || possible.step === undefined) return [];
    const step = { changes: [possible.step] };
    const result = since.findLast(({ change }) => isSameDeed(change, step));
    return result === undefined ? [] : [[adjustment, result] as const];
  });
}

function wasInVain({ kept, outcome, error }: CaseResult): boolean {
  if (kept || error === undefined) return false;
  return outcome === 'worse' || (outcome === 'same' && error <= CLEAR);
}

/** @param all what else was ridden in vain: half a step that failed too is no way out */
function whyNot({ date, outcome, change }: CaseResult, all: readonly CaseResult[]): string {
  const when = date === undefined ? '' : ` on ${date}`;
  const tested = `it was tested${when} and rated ${outcome === 'worse' ? 'worse' : 'no different'}`;
  // Of what made no difference less makes none either.
  const less = outcome === 'worse' ? smaller(change, all) : undefined;
  return less === undefined ? tested : `${tested}; ${clicksWords(less)} of it was not tested`;
}

function clicksWords({ by }: Change): string {
  return Math.abs(by) === 1 ? '1 click' : `${Math.abs(by)} clicks`;
}

/** Half the step in whole clicks, where that is less and nobody rode as little as that. */
function smaller(change: Deed, all: readonly CaseResult[]): Change | undefined {
  const [step, ...more] = changesOf(change);
  if (step === undefined || more.length > 0 || step.unit !== 'clicks') return undefined;
  const half = Math.floor(Math.abs(step.by) / 2);
  const ridden = all.some(({ change: other }) =>
    changesOf(other).some(
      ({ setting, by }) =>
        setting === step.setting && Math.sign(by) === Math.sign(step.by) && Math.abs(by) <= half,
    ),
  );
  if (half < 1 || ridden) return undefined;
  return { ...step, by: Math.sign(step.by) * half };
}
