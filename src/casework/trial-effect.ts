/** A change that was ridden → what it does to the causes. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Model } from '../diagnosis/model.ts';
import { type ChangeEffect, afterTrial, tabulateTrial } from '../diagnosis/results.ts';
import { amountIn, aspect, type Change } from '../bike/change.ts';
import { changesOf, type Deed } from '../bike/deed.ts';
import { ENDS } from '../bike/sheet.ts';
import { PRELOAD_PITCH } from '../physics/defaults.ts';
import type { Belief } from '../diagnosis/belief.ts';
import { marginals } from '../diagnosis/hypotheses.ts';
import type { CaseResult } from './case.ts';

/**
 * The effect of settings that were turned, or of an adjustment by id. A part is matched with the adjustment that turns the
 * same setting the same way; a smaller step than that adjustment's, or than measured sag asks for, does a smaller share.
 * @returns undefined when no adjustment of the rules turns that setting that way
 */
export function riddenEffect(model: Model, bench: PreparedBike, deed: Deed): ChangeEffect | undefined {
  const { adjustments, causes } = model.rules;
  const named = 'name' in deed ? adjustments.findIndex((a) => a.id === deed.name) : -1;
  // A repair is whole when it is done; a step may have been too small for what was off.
  const lasts = model.rules.numbers.results['one-step'];
  if (named >= 0)
    return adjustments[named]!.change === undefined ? bench.effect(named) : { ...bench.effect(named), lasts };
  const cures = new Float64Array(causes.length);
  const brings = new Float64Array(causes.length);
  const changes = changesOf(deed);
  if (changes.length === 0) return undefined;
  for (const change of changes) {
    const { setting, by, unit } = change;
    const same = adjustments.flatMap(({ change: own }, i) =>
      own?.setting === setting && Math.sign(own.by) === Math.sign(by) ? [i] : [],
    );
    // A collar's turns are measured by the rule for turns, not by the one for pressure.
    const index = same.find((i) => aspect(adjustments[i]!.change!.unit) === aspect(unit)) ?? same[0];
    if (index === undefined) return undefined;
    const rule = adjustments[index]!.change!;
    // Where sag was measured, all that it asks for is the whole fix, however short the rule's usual step.
    const { effect, ...whole } = bench.whole(index) ?? { effect: bench.effect(index), ...rule };
    // Another coil, where the rules know only preload: nobody fits one for less than a step.
    const amount = amountIn(change, whole.unit, perTurn(bench, change)) ?? whole.by;
    const share = Math.min(1, Math.abs(amount / whole.by));
    for (let c = 0; c < causes.length; c++) {
      cures[c] = Math.max(cures[c]!, share * effect.cures[c]!);
      brings[c] = Math.max(brings[c]!, share * effect.brings[c]!);
    }
  }
  return { cures, brings, lasts };
}

/** Metres of preload a turn of the collar, by the sheet or as usual. */
function perTurn({ sheet }: PreparedBike, { setting }: Change): number {
  const end = ENDS.find((one) => setting.startsWith(`${one}.`));
  const spring = end === undefined ? undefined : sheet?.ends[end].spring;
  return (spring?.kind === 'coil' ? spring.preloadPerTurn : undefined) ?? PRELOAD_PITCH;
}

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
