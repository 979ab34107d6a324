/** What a rider asks about doing → what the diagnosis makes of it: the change that is advised, one that is not, or one that cannot be done. */
import { refusalOf } from '../../advice/hold-back.ts';
import { chance, chanceFelt } from '../../advice/help-harm.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import type { Wished } from '../../words/tried/tried.ts';
import type { Consultation } from '../consult.ts';
import { meantBy, type Turned } from '../tried/tried-meaning.ts';

export interface WishAnswered {
  /** the rider's words */
  readonly phrase: string;
  /** index of the adjustment it comes to */
  readonly adjustment: number;
  /** whether it is what is advised first, the same setting turned the same way */
  readonly first: boolean;
  /** why it cannot be done on this bike, or is refused; absent: it could be */
  readonly why?: string;
  /** chance that the rider reports better, and worse, after a step of it, 0..1 */
  readonly better: number;
  readonly worse: number;
}

/**
 * @param goesBack whether an adjustment turns what the first step puts back
 * @returns an answer to each that the rules know; where the end was not said, at the end of the first step, else where it helps most
 */
export function answerWishes(
  model: Model,
  bench: PreparedBike,
  c: Consultation,
  wishes: readonly Wished[],
  goesBack: (adjustment: number) => boolean,
): WishAnswered[] {
  const first = bench.rules.adjustments[c.advice.first ?? -1];
  const isFirst = (index: number): boolean =>
    isSame(first, bench.rules.adjustments[index]!) || goesBack(index);
  return wishes.flatMap(({ asked, setting, end, direction }) => {
    const meant = meantBy(model, {
      setting,
      direction,
      result: 'not-sure',
      putBack: 'unknown',
      ...(end === undefined ? {} : { end }),
    });
    if (typeof meant === 'string') return [];
    const best = bestOf(bench, c, meant.flat(), isFirst);
    if (best === undefined) return [];
    const can = bench.possible[best]!;
    const rule = bench.rules.adjustments[best]!;
    const prospect = bench.prospect(best);
    const why = can.can
      ? (c.ridden?.get(best)?.why ??
        refusalOf({ model, bench, belief: c.belief, known: c.heard.known, ridden: c.ridden }, rule))
      : can.why;
    const felt = (report: 'better' | 'worse'): number =>
      chanceFelt(model, c.averaged(), c.none, { prospect, report });
    return [
      {
        phrase: asked,
        adjustment: best,
        first: isFirst(best),
        better: felt('better'),
        worse: felt('worse'),
        ...(why === undefined ? {} : { why }),
      },
    ];
  });
}

/** Of the adjustments that turn it so, what the first step does, else one that can be done, and of these the one that helps most. */
function bestOf(
  bench: PreparedBike,
  c: Consultation,
  turned: readonly Turned[],
  isFirst: (adjustment: number) => boolean,
): number | undefined {
  const { adjustments } = bench.rules;
  const found = adjustments.flatMap((one, i) => (turned.some((t) => turnsSo(bench, one, i, t)) ? [i] : []));
  const helps = (i: number): number =>
    isFirst(i) ? Infinity : bench.possible[i]!.can ? chance(c.belief, bench.prospect(i).helps) : -1;
  return found.reduce<number | undefined>(
    (best, i) => (best === undefined || helps(i) > helps(best) ? i : best),
    undefined,
  );
}

function turnsSo(bench: PreparedBike, { change }: Adjustment, index: number, turned: Turned): boolean {
  if (change?.setting !== turned.setting.id) return false;
  return turned.cures === undefined
    ? Math.sign(change.by) === turned.sign
    : bench.effect(index).cures[turned.cures]! > 0;
}

const isSame = (a: Adjustment | undefined, b: Adjustment): boolean =>
  a?.change !== undefined &&
  b.change !== undefined &&
  a.change.setting === b.change.setting &&
  Math.sign(a.change.by) === Math.sign(b.change.by);
