/** The cautions that go with a change, most serious first. */
import { amountIn, type Change } from '../bike/change.ts';
import type { Known } from '../diagnosis/gates.ts';
import type { Adjustment, Caution, CompiledRules } from '../rulebase/compiled.ts';
import { mayBeGiven } from './hold-back.ts';

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
  const shown = rules.cautions.filter(
    ({ id, show }) => wanted.has(id) || likely.includes(id) || (show === 'always' && changing),
  );
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
