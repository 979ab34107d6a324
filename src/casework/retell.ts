/**
 * One case told again under other strengths of the rules, for hundreds of them.
 *
 * Everything that no strength touches is kept: the belief of every round, the trials as tables over the sets, what
 * applies and what is set aside. Another strength then costs a look at the classes that hold its cause, and a few
 * products over all sets; the result is that of `consult` with those strengths.
 */
import { foundNothing } from '../advice/checks.ts';
import { advise, type Advice } from '../advice/advise.ts';
import type { Bench } from '../advice/bench.ts';
import { byGroup, update } from '../diagnosis/belief.ts';
import type { Known } from '../diagnosis/gates.ts';
import { marginals } from '../diagnosis/hypotheses.ts';
import type { Model } from '../diagnosis/model.ts';
import { otherStrengths } from '../diagnosis/other-strengths.ts';
import { afterTrial, tabulateTrial, type TrialTable } from '../diagnosis/results.ts';
import type { Question } from '../rulebase/compiled.ts';
import type { Case } from './case.ts';
import { hear } from './evidence.ts';
import { riddenEffect } from './ridden.ts';
import { toPutBack, weighTried } from './weigh-tried.ts';

/** A case that can be told again. */
export interface Telling {
  /** the questions whose answers count in it, in any round, by index */
  readonly answered: ReadonlySet<number>;
  /** @param changed question index → the question with other strengths, pointing to the same causes */
  advice(changed: ReadonlyMap<number, Question>): Advice;
}

interface Retold {
  readonly group: number;
  readonly questions: readonly number[];
  readonly ratio: ReturnType<typeof otherStrengths>;
}

interface Told {
  /** weights before the round's answers */
  readonly before: Float64Array;
  /** what the answers multiply each set's weight by, up to one factor for all */
  readonly said: Float64Array;
  /** for every group with an answer, its questions by index, and what other strengths would make of it */
  readonly groups: readonly Retold[];
  readonly trials: readonly TrialTable[];
}

export function tellingOf(model: Model, bench: Bench, kase: Case): Telling {
  const { space } = model;
  const rounds: Told[] = [];
  let prior = bench.prior;
  let dangerous = false;
  let known: Known | undefined;
  let putBack = false;
  let found = true;
  for (const round of [...kase.earlier, kase]) {
    const heard = hear(model, round.answers, bench.fact);
    const { evidence } = heard;
    dangerous = heard.dangers.length > 0;
    known = heard.known;
    found = foundNothing(model, evidence);
    const tried = weighTried(model, bench, prior, round);
    prior = tried.weights;
    putBack = toPutBack(tried.effects) !== undefined;
    const { weights: after } = update(model, prior, evidence);
    const trials = round.results.flatMap((result) => {
      const effect = riddenEffect(model, bench, result.change);
      return effect === undefined ? [] : [tabulateTrial(model, effect, result, result.kept)];
    });
    const groups = [...byGroup(model, evidence)].map(([group, answers]): Retold => ({
      group,
      questions: answers.flatMap((e) => model.rules.questions[e.question]!.either ?? [e.question]),
      ratio: otherStrengths(model, group, answers),
    }));
    // What a set has lost for good before the round has no weight after it either.
    const said = after.map((w, h) => (w > 0 ? w / prior[h]! : 0));
    rounds.push({ before: prior, said, groups, trials });
    prior = trials.reduce(afterTrial, after);
  }
  const scratch = new Float64Array(space.size);
  return {
    answered: new Set(rounds.flatMap((r) => r.groups.flatMap((g) => g.questions))),
    advice(changed) {
      // Up to the first round that hears of a changed question, all is as it was.
      const heard = (round: Told): boolean =>
        round.groups.some((g) => g.questions.some((q) => changed.has(q)));
      const from = rounds.findIndex(heard);
      let weights = from < 0 ? prior : rounds[from]!.before;
      for (const round of from < 0 ? [] : rounds.slice(from))
        weights = round.trials.reduce(afterTrial, retold(model, round, weights, changed));
      const causes = marginals(space, weights, scratch, new Float64Array(space.causes));
      const belief = { weights, causes, nothing: weights[0]!, logEvidence: NaN };
      return advise(model, bench, belief, {
        dangerous,
        putBack,
        foundNothing: found,
        ...(known === undefined ? {} : { known }),
      });
    },
  };
}

/** Weights after a round's answers, normalised, from the weights it starts with under the other strengths. */
function retold(
  model: Model,
  { said, groups }: Told,
  start: Float64Array,
  changed: ReadonlyMap<number, Question>,
): Float64Array {
  const weights = start.slice();
  for (let h = 0; h < weights.length; h++) weights[h]! *= said[h]!;
  for (const { group, questions, ratio: ratioOf } of groups) {
    if (!questions.some((q) => changed.has(q))) continue;
    const ratio = ratioOf(changed);
    const classOf = model.groups[group]!.classOf();
    for (let h = 0; h < weights.length; h++) weights[h]! *= ratio[classOf[h]!]!;
  }
  let total = 0;
  for (let h = 0; h < weights.length; h++) total += weights[h]!;
  for (let h = 0; h < weights.length; h++) weights[h]! /= total;
  return weights;
}
