/**
 * The expected counts behind every strength and prior, given logged cases and the strengths as they stand: the E-step.
 *
 * What is hidden in a case: which causes are off, whether a topic's impression can be trusted, whether an answer is a
 * slip or a guess, which signs were noticed, and which cause made the rider notice each. All of it is summed out
 * exactly; only what is left over, tosses and hits of each strength, goes into the next estimate.
 */
import { groupLikelihood, priorOf, update } from '../diagnosis/belief.ts';
import { marginals, membersOf } from '../diagnosis/hypotheses.ts';
import type { Model } from '../diagnosis/model.ts';
import { missed } from '../diagnosis/answer-model.ts';
import { oddsWithSheet } from '../diagnosis/sheet-evidence.ts';
import type { Bench } from '../advice/bench.ts';
import type { Observation } from './learn-observe.ts';
import { noticedGiven } from './learn-signs.ts';
import type { Strength } from './strengths.ts';

/** Weight below which a set of causes is not worth following. */
const NEGLIGIBLE = 1e-9;

/** Expected tosses of a strength's coin (its cause is off, or for a base rate any answer) and hits. */
export interface Counts {
  readonly tosses: Float64Array;
  readonly hits: Float64Array;
}

/** Looks up strengths by where they stand. */
export class StrengthTable {
  readonly size: number;
  private readonly at: ReadonlyMap<number, number>;
  private readonly stride: number;

  constructor(model: Model, strengths: readonly Strength[]) {
    this.size = strengths.length;
    this.stride = model.rules.causes.length + 1;
    this.at = new Map(
      strengths.flatMap((s, k) => s.spots.map((x) => [this.key(x.question, x.answer, x.cause), k] as const)),
    );
  }

  private key(question: number, answer: number, cause: number): number {
    return (question * 64 + answer) * this.stride + cause + 1;
  }

  /** index of the strength, or -1; `cause` -1 for a base rate */
  find(question: number, answer: number, cause: number): number {
    return this.at.get(this.key(question, answer, cause)) ?? -1;
  }
}

export interface Seen {
  /** probability of every cause before and after, where the case speaks about the bike as it came; else undefined */
  readonly causes: { readonly before: Float64Array; readonly after: Float64Array } | undefined;
  /** natural logarithm of P(answers, outcomes) */
  readonly logLikelihood: number;
  /** for every answered question: expected number of genuine answers, by class of its group */
  readonly genuine: readonly {
    readonly question: number;
    readonly answer: number;
    readonly byClass: Float64Array;
  }[];
}

/** A reader of observations under one model; priors of bikes are kept between them. */
export function observer(model: Model): (o: Observation) => Seen {
  const { space, rules } = model;
  const priors = new Map<Bench, { weights: Float64Array; causes: Float64Array }>();
  const buffer = new Float64Array(space.size);
  const normal = (weights: Float64Array): { causes: Float64Array; total: number } => {
    const causes = marginals(space, weights, model.scratch, new Float64Array(space.causes));
    const total = model.scratch[0]!;
    for (let c = 0; c < causes.length; c++) causes[c]! /= total;
    return { causes, total };
  };
  const priorFor = (bench: Bench) => {
    let known = priors.get(bench);
    if (known === undefined) {
      const weights = priorOf(model, oddsWithSheet(model, bench.findings));
      known = { weights, causes: normal(weights).causes };
      priors.set(bench, known);
    }
    return known;
  };
  return ({ bench, start, groups, outcomes }) => {
    const prior = bench === undefined ? undefined : priorFor(bench);
    const { weights, logEvidence } = update(
      model,
      prior?.weights ?? start!,
      [...groups.values()].flat(),
      buffer,
    );
    for (let h = 0; h < weights.length; h++) weights[h]! *= outcomes[h]!;
    const { causes, total } = normal(weights);
    const genuine = [...groups].flatMap(([g, answers]) => {
      const group = model.groups[g]!;
      const classOf = group.classOf();
      const share = new Float64Array(group.classes.length);
      for (let h = 0; h < weights.length; h++) share[classOf[h]!]! += weights[h]!;
      const { trusted, wrong } = groupLikelihood(model, g, answers);
      const d = group.doubt;
      for (let c = 0; c < share.length; c++) {
        const right = (1 - d) * trusted[c]!;
        share[c]! *= right / (total * (right + d * wrong));
      }
      return answers.map(({ question, answer, sure }) => {
        const q = rules.questions[question]!;
        const m = q.answers.length;
        const slip = rules.numbers.slip[q.how];
        const table = group.table(question);
        const byClass = share.map((s, c) => {
          const p = table[c * m + answer]!;
          return (s * sure * (p - slip / m)) / (sure * p + (1 - sure) / m);
        });
        return { question, answer, byClass };
      });
    });
    return {
      causes: prior === undefined ? undefined : { before: prior.causes, after: causes },
      logLikelihood: logEvidence + Math.log(total),
      genuine,
    };
  };
}

/** Genuine answers of one question → tosses and hits of its strengths, added to `into`. */
export function countAnswers(
  model: Model,
  table: StrengthTable,
  question: number,
  answer: number,
  byClass: Float64Array,
  into: Counts,
): void {
  const q = model.rules.questions[question]!;
  const m = q.answers.length;
  const miss = new Float64Array(m);
  const noticed = new Float64Array(m);
  const { classes } = model.groups[model.groupOf[question]!]!;
  const add = (sign: number, cause: number, strength: number, weight: number): void => {
    const k = table.find(question, sign, cause);
    if (k < 0) return;
    into.tosses[k]! += weight;
    // Of a noticed sign, each coin came up with its own chance over the chance that any did.
    if (miss[sign]! < 1) into.hits[k]! += (weight * noticed[sign]! * strength) / (1 - miss[sign]!);
  };
  for (let c = 0; c < classes.length; c++) {
    const weight = byClass[c]!;
    if (weight < NEGLIGIBLE) continue;
    const off = membersOf(model.space, classes[c]!);
    missed(q, off, miss);
    noticedGiven(q, miss, answer, noticed);
    q.base.forEach((b, sign) => b > 0 && add(sign, -1, b, weight));
    for (const [cause, sign, strength] of q.links)
      if (off.includes(cause)) add(sign, cause, strength, weight);
  }
}
