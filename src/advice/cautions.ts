/** The cautions that go with a change, most serious first. */
import { amountIn, type Change } from '../bike/change.ts';
import type { Known } from '../diagnosis/gates.ts';
import type { Caution, CompiledRules } from '../rulebase/compiled.ts';
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';
import { mayBeGiven } from './hold-back.ts';
import type { Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';

/**
 * Ids of those that an adjustment asks for, also by what was answered.
 * @param known absent: nothing was answered
 * @param step how far it goes; absent: as far as it may
 */
export function cautionsOf(
  {
    cautions,
    cautionsFrom,
    cautionsWhen,
    change,
  }: Pick<Adjustment, 'cautions' | 'cautionsFrom' | 'cautionsWhen' | 'change'>,
  known: Known | undefined,
  step?: Pick<Change, 'by' | 'unit'>,
): readonly string[] {
  // A step in a unit that does not compare with the rule's own may be any size.
  const far = step === undefined || change === undefined ? undefined : amountIn(step, change.unit);
  const own =
    cautionsFrom === undefined || far === undefined
      ? cautions
      : cautions.filter((id) => Math.abs(far) >= (cautionsFrom[id] ?? 0));
  const also = cautionsWhen.filter(({ answers }) => mayBeGiven(answers, known));
  return also.length === 0 ? own : [...own, ...also.map(({ id }) => id)];
}

const SERIOUS: readonly Caution['level'][] = ['stop', 'care', 'note'];

/**
 * The most serious first; of those equally serious the one that the fewest adjustments ask for, because it says most of
 * this one, then what an answer warns of, and then what holds whatever is done.
 *
 * @param wanted ids that the adjustment, or a dangerous answer, asks for
 * @param changing whether anything is to be changed: then those shown always come as well
 * @param likely ids that are said because their cause is likely
 */
export function cautionsFor(
  rules: Pick<CompiledRules, 'cautions' | 'adjustments'>,
  wanted: ReadonlySet<string>,
  changing: boolean,
  likely: readonly string[] = [],
): Caution[] {
  const all = rules.cautions.filter(
    ({ id, show }) => wanted.has(id) || likely.includes(id) || (show === 'always' && changing),
  );
  // What only says to take care gives way to what says why: that of a step, or a closer word of what stops the ride.
  const closer = all.filter(({ show }) => show === 'with').map(({ level }) => SERIOUS.indexOf(level));
  const most = Math.min(...closer);
  const shown = all.filter(({ show, level }) => show !== 'alone' || SERIOUS.indexOf(level) < most);
  if (shown.length <= 1) return shown;
  const asking = new Map(
    shown.map(({ id, show, level }) => [
      id,
      show === 'always'
        ? Infinity
        : wanted.has(id)
          ? (askers(rules.adjustments).get(id) ?? (level === 'stop' ? 0 : Number.MAX_VALUE))
          : Number.MAX_VALUE,
    ]),
  );
  return SERIOUS.flatMap((level) =>
    shown
      .filter((caution) => caution.level === level)
      .toSorted((a, b) =>
        asking.get(a.id)! === asking.get(b.id)! ? 0 : asking.get(a.id)! - asking.get(b.id)!,
      ),
  );
}

const counted = new WeakMap<readonly Adjustment[], ReadonlyMap<string, number>>();

/** How many adjustments ask for each caution. */
function askers(adjustments: readonly Adjustment[]): ReadonlyMap<string, number> {
  let known = counted.get(adjustments);
  if (known === undefined) {
    const counts = new Map<string, number>();
    for (const { cautions } of adjustments)
      for (const id of new Set(cautions)) counts.set(id, (counts.get(id) ?? 0) + 1);
    counted.set(adjustments, (known = counts));
  }
  return known;
}

/**
 * Ids of the cautions of what is likely now. The causes of one caution count together: either circuit of a rebound that is too
 * fast throws the rider.
 * @param none chance of something that the rules do not know, 0..1
 */
export function whileLikely(
  { rules, space }: Pick<Model, 'rules' | 'space'>,
  { causes, weights }: Pick<Belief, 'causes' | 'weights'>,
  none: number,
): string[] {
  const least = rules.numbers.advice['warn-likely'];
  const byCaution = new Map<string, number[]>();
  for (const [index, { whileLikely: caution }] of rules.causes.entries())
    if (caution !== undefined) byCaution.set(caution, [...(byCaution.get(caution) ?? []), index]);
  const isLikely = (of: readonly number[]): boolean => {
    const [most, sum] = [Math.max(...of.map((c) => causes[c]!)), of.reduce((all, c) => all + causes[c]!, 0)];
    if ((1 - none) * most >= least) return true;
    // Together they are at most as likely as their sum: mostly no set need be looked at.
    return (1 - none) * sum >= least && (1 - none) * anyOf(space, weights, of) >= least;
  };
  return [...byCaution].filter(([, of]) => isLikely(of)).map(([caution]) => caution);
}

/** Probability that any of these is off. */
function anyOf(
  { size, parent, last }: Model['space'],
  weights: Float64Array,
  causes: readonly number[],
): number {
  const isOne = new Set(causes);
  // A set extends another by its last cause, so whether that one has any is known by then.
  const has = new Uint8Array(size);
  let sum = 0;
  for (let set = 1; set < size; set++) {
    has[set] = isOne.has(last[set]!) || has[parent[set]!] === 1 ? 1 : 0;
    if (has[set] === 1) sum += weights[set]!;
  }
  return sum;
}
