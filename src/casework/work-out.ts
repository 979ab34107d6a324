/** All that a case may need and that follows from the rules alone, worked out ahead. */
import { valueOfKnowing } from '../advice/payoff.ts';
import { prepareBike } from '../advice/prepared-bike.ts';
import type { Physics } from '../advice/physics.ts';
import { surprisesOf } from '../diagnosis/fit.ts';
import { fresh } from '../diagnosis/inquiry.ts';
import { isTooWide } from '../diagnosis/fast/factor-parts.ts';
import { isWide } from '../diagnosis/fast/class-marginals.ts';
import { recordInto, type NamedNumbers } from '../diagnosis/fast/precomputed.ts';
import { buildModel } from '../diagnosis/model.ts';
import { pairsOf } from '../diagnosis/pairs.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import { setsOfEach } from './what-if/strength-shift.ts';

/** @param physics of the bike that stands in where no sheet is given */
export function workOut(rules: CompiledRules, physics: Physics): ReadonlyMap<string, NamedNumbers> {
  const all = new Map<string, NamedNumbers>();
  const keep = recordInto(all);
  const model = buildModel(rules, undefined, keep);
  const bench = prepareBike(model, undefined, physics, keep);
  pairsOf(model);
  setsOfEach(model);
  valueOfKnowing(bench.payoff, bench.prior, 0);
  for (const adjustment of bench.payoff.adjustments) bench.prospect(adjustment);
  for (const group of model.groups) {
    // Answers without an end are rare enough to be worked out when they come.
    if (group.joint !== undefined) continue;
    if (isWide(group, { weights: model.scratch })) group.classOf();
    if (!isTooWide(group, model.space.size)) group.crowded();
    for (const question of group.questions) {
      fresh(model, group, { weights: model.scratch }, question);
      surprisesOf(model, group, question, 1);
    }
  }
  return all;
}
