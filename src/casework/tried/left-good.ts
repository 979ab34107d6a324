/** What a trial kept and was moved since in none: the way back to it, where something bothers on the bike as it stands. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Evidence } from '../../diagnosis/belief.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Case } from '../case.ts';
import { signsNoticed } from '../which-end.ts';
import { placeTried } from './place-tried.ts';
import type { TriedEffect } from './weigh-tried.ts';

/**
 * Each as a change that is on the bike and rides worse than what was rated. Nobody said so of it, so it is no evidence; it goes
 * back first where what it brings is likely enough to be what is felt.
 * @param evidence of today; where nothing was noticed but in the stand, nothing rides worse
 */
export function leftGoodOn(
  model: Model,
  bench: PreparedBike,
  kase: Case,
  evidence: readonly Evidence[],
): readonly TriedEffect[] {
  const { leftGood = [] } = bench;
  const { questions } = model.rules;
  const isFelt = signsNoticed(questions, evidence).some(
    ({ question }) => questions[question]!.how !== 'stand',
  );
  // What was ridden after these answers was told on another bike.
  if (leftGood.length === 0 || !isFelt || kase.results.length > 0) return [];
  return leftGood.flatMap((change): TriedEffect[] => {
    const tried = { change: { changes: [change] }, result: 'worse', putBack: 'no' } as const;
    const placed = placeTried(model, bench, tried);
    if (typeof placed === 'string' || placed.back === undefined) return [];
    return [{ ...placed, decibans: new Float64Array(model.rules.causes.length) }];
  });
}
