/** What bothers the rider today leads: what was told before, or was only found by the way, comes behind it. */
import type { Advice } from '../advice/advise.ts';
import { behindSigns, curedShare } from '../advice/behind-signs.ts';
import { expectedCure } from '../advice/payoff.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Belief, Evidence } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import { reasonIn } from '../rulebase/reasons.ts';
import type { Case } from './case.ts';
import { signsNoticed } from './which-end.ts';

/**
 * Where the first step mends next to nothing of what was felt on the ride today, and another does that is worth its trial and
 * likely enough, that one goes first: enough to be named for a complaint where the other is for an older one, and more likely
 * than not where it is for what a gauge found today. A repair, and what was put before a better-looking step for a reason, stays.
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
  const { adjustments, numbers } = model.rules;
  const { first } = advice;
  if (advice.verdict !== 'change' || advice.because !== undefined) return advice;
  if (first === undefined || adjustments[first]!.change === undefined) return advice;
  const { noticed, ridden } = signsOf(model, evidence);
  const felt = shareOf(model, bench, belief, ridden);
  const { 'may-help': help, 'may-try': mayTry, 'felt-first': feltFirst } = numbers.advice;
  if (felt === undefined || felt(first) >= help) return advice;
  const older = kase.earlier.length > 0 && !((shareOf(model, bench, belief, noticed)?.(first) ?? 0) >= help);
  const likely = older ? mayTry : feltFirst;
  const cure = expectedCure(bench.payoff, belief.causes);
  const today = advice.ranked.find(
    ({ adjustment, worth }) =>
      worth > 0 &&
      adjustments[adjustment]!.change !== undefined &&
      cure[bench.payoff.adjustments.indexOf(adjustment)]! >= likely &&
      felt(adjustment) >= help,
  );
  if (today === undefined) return advice;
  return {
    ...advice,
    ranked: [today, ...advice.ranked.filter((one) => one !== today)],
    first: today.adjustment,
    because: 'held-back',
    insteadOf: { adjustment: first, why: reasonIn(model.rules.reasons, older ? 'older' : 'by-the-way') },
  };
}

interface Signs {
  readonly noticed: readonly Evidence[];
  /** those not found in the stand */
  readonly ridden: readonly Evidence[];
}

const signs = new WeakMap<readonly Evidence[], Signs>();

/** The same whatever the strengths are: a case is told again under hundreds of others. */
function signsOf({ rules: { questions } }: Model, evidence: readonly Evidence[]): Signs {
  let known = signs.get(evidence);
  if (known === undefined) {
    const noticed = signsNoticed(questions, evidence);
    known = { noticed, ridden: noticed.filter(({ question }) => questions[question]!.how !== 'stand') };
    signs.set(evidence, known);
  }
  return known;
}

/** Share of what is behind these signs that an adjustment cures, 0..1; undefined where nothing is behind them. */
function shareOf(
  model: Model,
  bench: PreparedBike,
  belief: Belief,
  signs: readonly Evidence[],
): ((adjustment: number) => number) | undefined {
  const behind = behindSigns(model, belief, signs);
  return behind.all > 0 ? (adjustment) => curedShare(bench, behind, adjustment) : undefined;
}
