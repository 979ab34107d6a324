/** Logs made up from rules whose strengths are known: what is off, what riders say of it, what a ridden change did. */
import { randomBeta } from 'd3-random';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import type { Case, CaseAnswer } from '../../src/casework/case.ts';
import { answerProbabilities } from '../../src/diagnosis/answer-model.ts';
import { buildModel, type Model } from '../../src/diagnosis/model.ts';
import { outcomeProbability, type Outcome } from '../../src/diagnosis/results.ts';
import type { Logged } from '../../src/evaluation/learn-observe.ts';
import { drawTruth, type Random } from '../../src/evaluation/riders.ts';
import { strengthsOf, withValue } from '../../src/evaluation/strengths.ts';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';

/** The rules with strengths drawn about their words, as spread as `weight` cases leave them; by strength id. */
export function drawnRules(
  rules: CompiledRules,
  weight: number,
  random: Random,
): { rules: CompiledRules; values: Map<string, number> } {
  const values = new Map(
    strengthsOf(rules).map((s) => [
      s.id,
      randomBeta.source(random)(weight * s.value, weight * (1 - s.value))(),
    ]),
  );
  return { rules: withValues(rules, values), values };
}

export function withValues(rules: CompiledRules, values: ReadonlyMap<string, number>): CompiledRules {
  const questions = [...rules.questions];
  for (const s of strengthsOf(rules)) {
    const value = values.get(s.id);
    if (value === undefined) continue;
    for (const spot of s.spots)
      questions[spot.question] = withValue(questions[spot.question]!, [spot], value);
  }
  return { ...rules, questions };
}

function pick<T>(list: readonly T[], chance: (x: T) => number, random: Random): T {
  let left = random();
  for (const x of list) if ((left -= chance(x)) < 0) return x;
  return list.at(-1)!;
}

/**
 * @param truthRules what riders really follow; the cases are read later under the pack's own rules
 * @param left share of bikes on which nothing was ridden, whatever was off
 */
export function madeLogs(
  truthRules: CompiledRules,
  reading: { readonly bench: PreparedBike },
  count: number,
  random: Random,
  asked = 0.8,
  left = 0,
): Logged[] {
  const model: Model = buildModel(truthRules);
  const bench = prepareBike(model);
  return Array.from({ length: count }, (_, i) => {
    const truth = drawTruth(model, bench.prior, random);
    const wrong = new Map<string, boolean>();
    const answers = truthRules.questions.flatMap((q): CaseAnswer[] => {
      if (q.either !== undefined) return [];
      if (random() > asked) return [];
      const doubt = truthRules.numbers.trust[q.how];
      if (!wrong.has(q.group)) wrong.set(q.group, random() < doubt);
      const m = q.answers.length;
      const p = answerProbabilities(q, truth, new Float64Array(m));
      const any = wrong.get(q.group)! || random() < truthRules.numbers.slip[q.how];
      const answer = pick([...q.answers.keys()], (a) => (any ? 1 / m : p[a]!), random);
      return [{ question: q.id, answer: q.answers[answer]!.id, sure: 'sure' }];
    });
    const index = Math.floor(random() * truthRules.adjustments.length);
    const outcome = pick<Outcome>(
      ['better', 'same', 'worse'],
      (o) => outcomeProbability(model, bench.effect(index), truth, o),
      random,
    );
    const kase: Case = {
      id: `made-${i}`,
      answers,
      results:
        left > 0 && random() < left
          ? []
          : [{ change: { name: truthRules.adjustments[index]!.id }, outcome, kept: outcome === 'better' }],
      earlier: [],
    };
    return { kase, bench: reading.bench };
  });
}
