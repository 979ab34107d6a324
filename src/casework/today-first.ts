/** Told on a bike with a log: what bothers today leads, and what was told before and is not mended comes behind it. */
import type { Advice } from '../advice/advise.ts';
import { expectedCure } from '../advice/payoff.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Belief, Evidence } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Case } from './case.ts';
import { signsNoticed } from './which-end.ts';

const OLDER = 'it is for what was told before; what is told today comes first';

/**
 * Where the first step mends next to nothing of what was noticed today, and another does that is likely enough to be named
 * for a complaint and worth its trial, that one goes first. A repair, and what was put before a better-looking step for a reason, stays.
 * @param evidence of today alone
 */
export function todayFirst(
  model: Model,
  bench: PreparedBike,
  belief: Belief,
  {
    kase,
    evidence,
    advice,
  }: { readonly kase: Case; readonly evidence: readonly Evidence[]; readonly advice: Advice },
): Advice {
  const { adjustments, questions, numbers } = model.rules;
  const { first } = advice;
  if (kase.earlier.length === 0 || advice.verdict !== 'change' || advice.because !== undefined) return advice;
  if (first === undefined || adjustments[first]!.change === undefined) return advice;
  const behind = new Map<number, number>();
  for (const { question, answer } of signsNoticed(questions, evidence))
    for (const [cause, sign, strength] of questions[question]!.links)
      if (sign === answer) behind.set(cause, (behind.get(cause) ?? 0) + strength * belief.causes[cause]!);
  const all = [...behind.values()].reduce((sum, w) => sum + w, 0);
  if (!(all > 0)) return advice;
  const { 'may-help': help, 'may-try': likely } = numbers.advice;
  const share = (adjustment: number): number => {
    const { cures } = bench.effect(adjustment);
    return [...behind].reduce((sum, [cause, weight]) => sum + weight * Math.min(1, cures[cause]!), 0) / all;
  };
  if (share(first) >= help) return advice;
  const cure = expectedCure(bench.payoff, belief.causes);
  const today = advice.ranked.find(
    ({ adjustment, worth }) =>
      worth > 0 &&
      adjustments[adjustment]!.change !== undefined &&
      cure[bench.payoff.adjustments.indexOf(adjustment)]! >= likely &&
      share(adjustment) >= help,
  );
  if (today === undefined) return advice;
  return {
    ...advice,
    ranked: [today, ...advice.ranked.filter((one) => one !== today)],
    first: today.adjustment,
    because: 'held-back',
    insteadOf: { adjustment: first, why: OLDER },
  };
}
