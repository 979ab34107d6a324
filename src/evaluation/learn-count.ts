/**
 * The expected counts behind every strength and prior, given logged cases and the strengths as they stand: the E-step.
 *
 * What is hidden in a case: which causes are off, whether a topic's impression can be trusted, whether an answer is a
 * slip or a guess, which signs were noticed, and which cause made the rider notice each. All of it is summed out
 * exactly; only what is left over, tosses and hits of each strength, goes into the next estimate.
 */
import { groupLikelihood, priorOf, type Evidence } from '../diagnosis/belief.ts';
import { classProbabilities, posteriorOf } from '../diagnosis/fast/class-marginals.ts';
import { marginals } from '../diagnosis/hypotheses.ts';
import type { Model } from '../diagnosis/model.ts';
import type { GroupFactor } from '../diagnosis/fast/weigh.ts';
import { oddsWithSheet } from '../diagnosis/sheet-evidence.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Observation } from './learn-observe.ts';
import { noticedGiven } from './learn-signs.ts';
import type { Strength } from './strengths.ts';

/** Weight, in answers, below which a set of causes is not worth following. */
const NEGLIGIBLE = 1e-7;

/** Expected tosses of a strength's coin (its cause is off, or for a base rate any answer) and hits. */
export interface Counts {
  readonly tosses: Float64Array;
  readonly hits: Float64Array;
}

/** Where the strengths of each question are found, by number. */
export interface StrengthTable {
  readonly size: number;
  /** for each question: the number of the base rate of each answer; -1 where there is none */
  readonly base: readonly Int32Array[];
  /** for each question and cause it points to: its signs and the numbers of their links */
  readonly links: readonly ReadonlyMap<
    number,
    readonly { readonly sign: number; readonly strength: number }[]
  >[];
}

export function strengthTable(model: Model, strengths: readonly Strength[]): StrengthTable {
  const base = model.rules.questions.map((q) => new Int32Array(q.answers.length).fill(-1));
  const links = model.rules.questions.map(() => new Map<number, { sign: number; strength: number }[]>());
  strengths.forEach(({ spots }, strength) => {
    for (const { question, answer: sign, cause } of spots) {
      if (cause < 0) base[question]![sign] = strength;
      else {
        const of = links[question]!;
        of.set(cause, [...(of.get(cause) ?? []), { sign, strength }]);
      }
    }
  });
  return { size: strengths.length, base, links };
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

/** A group's answers: what they say of each of its classes, and for each answer, the chance in each that it is genuine. */
interface Told extends GroupFactor {
  readonly genuine: readonly Float64Array[];
}

/** A reader of observations under one model; priors of bikes are kept between them. */
export function observer(model: Model): (o: Observation) => Seen {
  const { space, rules } = model;
  const priors = new Map<PreparedBike, { weights: Float64Array; causes: Float64Array; mass: number }>();
  const buffer = new Float64Array(space.size);
  const containing = new Float64Array(space.size);
  const spare = new Float64Array(space.causes);
  const normal = (weights: Float64Array): { causes: Float64Array; total: number } => {
    const causes = marginals(space, weights, model.scratch, new Float64Array(space.causes));
    const total = model.scratch[0]!;
    for (let c = 0; c < causes.length; c++) causes[c]! /= total;
    return { causes, total };
  };
  const priorFor = (bench: PreparedBike) => {
    let known = priors.get(bench);
    if (known === undefined) {
      const weights = priorOf(model, oddsWithSheet(model, bench.findings));
      const { causes, total } = normal(weights);
      known = { weights, causes, mass: total };
      priors.set(bench, known);
    }
    return known;
  };
  const told = new Map<number, Told>();
  const tell = (g: number, answers: readonly Evidence[]): Told => {
    const only = answers[0]!;
    // One sure answer says the same in every case, so it is worked out once a round.
    const key =
      answers.length === 1 && only.sure === 1 && only.share === undefined
        ? only.question * 64 + only.answer
        : -1;
    const known = told.get(key);
    if (known !== undefined) return known;
    const { doubt } = model.groups[g]!;
    const { trusted, wrong } = groupLikelihood(model, g, answers);
    const factor = trusted.map((t) => (1 - doubt) * t + doubt * wrong);
    const genuine = answers.map(({ question, answer, sure, share = 1 }) => {
      const { answers: all, how } = rules.questions[question]!;
      const m = all.length;
      const slip = rules.numbers.slip[how];
      const table = model.groups[g]!.table(question);
      return trusted.map((t, c) => {
        const p = table[c * m + answer]!;
        return (
          share * (((1 - doubt) * t) / factor[c]!) * ((sure * (p - slip / m)) / (sure * p + (1 - sure) / m))
        );
      });
    });
    const made = { group: g, factor, genuine };
    if (key >= 0) told.set(key, made);
    return made;
  };
  return ({ bench, start, groups, outcomes }) => {
    const prior = bench === undefined ? undefined : priorFor(bench);
    const weights = buffer;
    const said = [...groups].map(([g, answers]) => tell(g, answers));
    const shift = model.weigh(prior?.weights ?? start!, said, weights, spare);
    for (let h = 0; h < weights.length; h++) weights[h]! *= outcomes[h]!;
    const { causes, total } = normal(weights);
    for (let h = 0; h < weights.length; h++) weights[h]! /= total;
    const posterior = posteriorOf(model, { weights, causes }, containing);
    const genuine = [...groups.values()].flatMap((answers, i) => {
      const { group: g, genuine: shares } = said[i]!;
      const classes = classProbabilities(model.groups[g]!, posterior);
      return answers.map(({ question, answer }, j) => ({
        question,
        answer,
        byClass: product(classes, shares[j]!),
      }));
    });
    return {
      causes: prior === undefined ? undefined : { before: prior.causes, after: causes },
      logLikelihood: Math.log(total) + shift - Math.log(prior?.mass ?? massOf(start!)),
      genuine,
    };
  };
}

/**
 * Genuine answers of one question → tosses and hits of its strengths, added to `into`.
 * @param values the strengths as they stand
 * @param least weight below which a set of causes is not followed
 */
export function countAnswers(
  model: Model,
  table: StrengthTable,
  values: readonly number[],
  { question, answer, byClass }: Seen['genuine'][number],
  into: Counts,
  least = NEGLIGIBLE,
): void {
  const { space, rules, groups, groupOf } = model;
  const q = rules.questions[question]!;
  const base = table.base[question]!;
  const links = table.links[question]!;
  const classes = groups[groupOf[question]!]!.classes.sets;
  const miss = new Float64Array(q.answers.length);
  const noticed = new Float64Array(q.answers.length);
  for (let c = 0; c < classes.length; c++) {
    const weight = byClass[c]!;
    if (weight < least) continue;
    for (let a = 0; a < miss.length; a++) miss[a] = a === q.default ? 1 : 1 - q.base[a]!;
    for (let h = classes[c]!; h > 0; h = space.parent[h]!)
      for (const { sign, strength } of links.get(space.last[h]!) ?? []) miss[sign]! *= 1 - values[strength]!;
    noticedGiven(q, miss, answer, noticed);
    const add = (sign: number, strength: number): void => {
      into.tosses[strength]! += weight;
      // Of a noticed sign, each coin came up with its own chance over the chance that any did.
      if (noticed[sign]! > 0)
        into.hits[strength]! += (weight * noticed[sign]! * values[strength]!) / (1 - miss[sign]!);
    };
    for (let a = 0; a < base.length; a++) if (base[a]! >= 0) add(a, base[a]!);
    for (let h = classes[c]!; h > 0; h = space.parent[h]!)
      for (const { sign, strength } of links.get(space.last[h]!) ?? []) add(sign, strength);
  }
}

function product(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(a.length);
  for (let i = 0; i < out.length; i++) out[i] = a[i]! * b[i]!;
  return out;
}

function massOf(weights: Float64Array): number {
  return weights.reduce((sum, w) => sum + w, 0);
}
