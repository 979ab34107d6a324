/** What a case has to be heeded beside the belief, and the advice on it: one for the case as told, and as told again. */
import { advise, type Advice, type Heeded } from '../advice/advise.ts';
import type { InVain } from '../advice/refused.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import { groundsOf } from './beside.ts';
import type { Case } from './case.ts';
import type { Heard } from './evidence.ts';
import { todayFirst } from './today-first.ts';
import { sameAndOn, waysBack, worseAndOn, chooseBack, type Back } from './tried/choose-back.ts';
import { tradesOf } from './tried/trades.ts';
import { leftGoodOn } from './tried/left-good.ts';
import type { TriedEffect } from './tried/weigh-tried.ts';

export interface CaseAdvice {
  readonly advice: Advice;
  /** what the advice takes back */
  readonly back: TriedEffect | undefined;
  /** what made no difference and is still on the bike, and what taking it back does */
  readonly left: readonly Back[];
}

/**
 * @param cut the bike with the steps that are named after what was tried and ridden
 * @param tried of the last round
 * @param ridden as in a consultation
 * @returns the advice under a belief, and chances of what stands beside the causes; with the model of other strengths where
 * the belief is of those
 */
export function adviserOf(
  model: Model,
  cut: PreparedBike,
  {
    kase,
    heard: { dangers, known, evidence },
    tried,
    ridden,
  }: {
    readonly kase: Case;
    readonly heard: Pick<Heard, 'dangers' | 'known' | 'evidence'>;
    readonly tried: readonly TriedEffect[];
    readonly ridden: ReadonlyMap<number, InVain> | undefined;
  },
): (belief: Belief, beside: Required<Pick<Heeded, 'none' | 'impression'>>, under?: Model) => CaseAdvice {
  const worse = worseAndOn(model, tried);
  const same = sameAndOn(tried);
  const moved = leftGoodOn(model, cut, kase, evidence);
  const trades = tradesOf(tried);
  const grounds = groundsOf(model, evidence, kase.said !== undefined);
  return (belief, { none, impression }, under = model) => {
    // What the rider said of a change goes before what the log alone knows.
    const [good] = waysBack(under, moved, belief, 'good');
    const back = chooseBack(under, worse, belief, trades) ?? good;
    const left = waysBack(under, same, belief);
    const advised = advise(under, cut, belief, {
      dangerous: dangers.length > 0,
      dangers,
      known,
      back,
      left,
      grounds,
      none,
      impression,
      ridden,
    });
    const advice = todayFirst(under, cut, belief, { kase, evidence, advice: advised });
    const named = [...left, ...(back === undefined ? [] : [back])].find((one) => one === advice.back);
    return { advice, back: named?.tried, left };
  };
}
