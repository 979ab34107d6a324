/**
 * "None of these": something is off that the rules do not know.
 *
 * It stands beside all sets of causes, alone, with a prior of its own (`numbers.none.prior`) and broad answers: what is
 * remembered or ridden shows any of its signs with `numbers.none.signs` above its base rate, and the stand finds what it
 * finds on a bike with nothing off. What is believed of the causes is believed given that it is one of these; only their
 * sum gives way to it:
 *
 * P(none | answers) = π·P(answers | none) / (π·P(answers | none) + (1−π)·Σ_h P(h)·P(answers | h))
 */
import { fromMissed } from './answer-model.ts';
import { byGroup, wrongly, type Belief, type Evidence } from './belief.ts';
import type { Model } from './model.ts';
import type { CompiledRules, Question } from '../rulebase/compiled.ts';

/**
 * ln P(answers | none of these).
 * @param chancesOf of each answer of a question, by its index; absent: those of the model
 */
export function logEvidenceOfNone(
  model: Model,
  evidence: readonly Evidence[],
  chancesOf = (question: number): Float64Array => chancesOfNone(model, question),
): number {
  let log = 0;
  for (const [g, answers] of byGroup(model, evidence)) {
    const { doubt, joint } = model.groups[g]!;
    let right = 1;
    for (const { question, answer, sure, share = 1 } of answers) {
      const chances = chancesOf(question);
      right *= (sure * chances[answer]! + (1 - sure) / chances.length) ** share;
    }
    // At an end not known a wrong impression is one of either end alike; of one answer it is any of them.
    const wrong =
      joint === undefined
        ? wrongly(model, g, answers)
        : answers.reduce(
            (p, e) => p * model.rules.questions[e.question]!.answers.length ** -(e.share ?? 1),
            1,
          );
    log += Math.log((1 - doubt) * right + doubt * wrong);
  }
  return log;
}

/** What stands beside the sets of causes: as natural logarithms of P(answers) first, then as probabilities. */
export interface Beside {
  /** something that the rules do not know */
  readonly none: number;
  /** one impression told throughout; see `impression.ts` */
  readonly impression: number;
}

/** P(none of these) and P(one impression), from ln P(answers) under each and under the causes. */
export function chancesBeside({ rules }: Model, under: Beside, underCauses: number): Beside {
  const none = rules.numbers.none.prior;
  const impression = rules.numbers['one-impression'].prior;
  const causes = 1 - none - impression;
  const a = (none / causes) * Math.exp(under.none - underCauses);
  const b = (impression / causes) * Math.exp(under.impression - underCauses);
  return { none: a / (1 + a + b), impression: b / (1 + a + b) };
}

/**
 * After a trial: with none of these, a change does nothing.
 * @param idle P(report | the change did nothing)
 * @param told P(report) under the causes
 */
export function noneAfterTrial(none: number, idle: number, told: number): number {
  const here = none * idle;
  return here / (here + (1 - none) * told);
}

/** The probability of every cause, none of these allowed for. */
export function statedOf({ causes }: Pick<Belief, 'causes'>, none: number, cause: number): number {
  return (1 - none) * causes[cause]!;
}

interface Kept {
  readonly numbers: Model['rules']['numbers'];
  readonly chances: Float64Array;
}
const kept = new WeakMap<Model['rules']['questions'][number], Kept>();

/** P(answer | none of these) for each answer of a question. */
export function chancesOfNone({ rules }: Model, index: number): Float64Array {
  const asked = rules.questions[askedAt(rules, index)]!;
  const known = kept.get(asked);
  if (known?.numbers === rules.numbers) return known.chances;
  const chances = chancesWithout(asked, rules.numbers);
  kept.set(asked, { numbers: rules.numbers, chances });
  return chances;
}

/** Which question stands for one: at an end not known each end alike, and the ends of one rule have the same strengths. */
export function askedAt({ questions }: Pick<CompiledRules, 'questions'>, index: number): number {
  return questions[index]!.either?.[0] ?? index;
}

/** The same, worked out anew. */
export function chancesWithout(asked: Question, { none, slip }: Model['rules']['numbers']): Float64Array {
  const m = asked.answers.length;
  const extra = asked.how === 'stand' ? 0 : none.signs;
  const miss = new Float64Array(m);
  for (let a = 0; a < m; a++) miss[a] = a === asked.default ? 1 : (1 - asked.base[a]!) * (1 - extra);
  const out = fromMissed(asked, miss, new Float64Array(m), 0);
  for (let a = 0; a < m; a++) out[a] = (1 - slip[asked.how]) * out[a]! + slip[asked.how] / m;
  return out;
}
