/** What is believed after one trial: its report weighed, and what it cured for good taken out. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Belief } from '../diagnosis/belief.ts';
import { marginals } from '../diagnosis/hypotheses.ts';
import type { Model } from '../diagnosis/model.ts';
import { afterTrial, tabulateTrial } from '../diagnosis/results.ts';
import type { CaseResult } from './case.ts';
import { riddenEffect } from './trial-effect.ts';

/** @returns undefined when the rules cannot place the change: then nothing is known that was not known before */
export function afterResult(
  model: Model,
  bench: PreparedBike,
  before: Belief,
  result: CaseResult,
): Belief | undefined {
  const effect = riddenEffect(model, bench, result.change);
  if (effect === undefined) return undefined;
  const { space } = model;
  const table = tabulateTrial(model, effect, result, result.kept);
  const told = before.weights.reduce((sum, w, h) => sum + w * table.likelihood[h]!, 0);
  const weights = afterTrial(before.weights, table);
  const causes = marginals(space, weights, new Float64Array(space.size), new Float64Array(space.causes));
  return { weights, causes, nothing: weights[0]!, logEvidence: before.logEvidence + Math.log(told) };
}
