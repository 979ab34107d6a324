/** How well the whole story hangs together under the model. */
import { byGroup, factorOf, groupFactor, update, type Evidence } from './belief.ts';
import { classProbabilities, means, turned, type Posterior } from './fast/class-marginals.ts';
import { setsMachine } from './fast/sets-machine.ts';
import type { Group } from './groups.ts';
import type { Model } from './model.ts';
import { togetherIn, type Told } from './one-explanation.ts';
import type { Numbers } from '../rulebase/numbers-schema.ts';

export interface Fit {
  /** (surprise − expected surprise) / its standard deviation; large means strange */
  readonly z: number;
  /** the two answers that contradict each other and surprise most, given all the others; empty when the story holds */
  readonly reask: readonly number[];
}

/**
 * z = (Σ_j −log2 P(a_j|h) − Σ_j H(A_j|h)) / √Σ_j Var, numerator and variance averaged over the posterior.
 * Undefined for no answers.
 * @param numbers above `strange` the most surprising answers that nothing explains together are named
 */
export function fitOf(
  model: Model,
  posterior: Posterior,
  evidence: readonly Evidence[],
  numbers: Numbers['fit'],
): Fit | undefined {
  if (evidence.length === 0) return undefined;
  let excess = 0;
  let variance = 0;
  for (const [g, answers] of byGroup(model, evidence)) {
    const group = model.groups[g]!;
    for (const e of answers) {
      const [more, spread] = means(group, posterior, surprises(model, group, posterior, e), 2);
      const { share = 1 } = e;
      excess += share * more!;
      variance += share * spread!;
    }
  }
  const z = variance > 0 ? excess / Math.sqrt(variance) : 0;
  return { z, reask: z > numbers.strange ? contradicting(model, posterior, evidence, numbers) : [] };
}

interface Surprises {
  /** mean (the entropy) and variance of the surprise in each class */
  readonly entropy: Float64Array;
  readonly spread: Float64Array;
  /** for each answer, what `surprises` gives; made when needed */
  readonly columns: (Float64Array | undefined)[];
}

const kept = new WeakMap<Float64Array, Map<number, Surprises>>();

/**
 * Two columns over the classes of the question's group, turned for `means`: the surprise −log2 P(answer | class) above
 * its mean, and its variance. The same for every rider of the same sureness, so they are kept.
 */
function surprises(
  model: Model,
  group: Group,
  posterior: Posterior,
  { question, answer, sure }: Evidence,
): Float64Array {
  const table = group.table(question);
  const { slope, floor } = likelihood(model, group, question, sure);
  const all = surprisesOf(model, group, question, sure);
  let columns = all.columns[answer];
  if (columns === undefined) {
    const size = all.entropy.length;
    const m = table.length / size;
    const { code, place, read, settle } = setsMachine();
    settle(table);
    const [mean, from, to] = place([all.entropy, table], size);
    code.aboveMean(to, size, mean, from, answer, m, slope, floor);
    const excess = read(to, size).slice();
    columns = new Float64Array(2 * size);
    columns.set(turned(group, posterior, excess));
    columns.set(turned(group, posterior, all.spread), size);
    all.columns[answer] = columns;
  }
  return columns;
}

/** P(answer | class) = slope · table + floor */
function likelihood({ rules }: Model, { doubt }: Group, question: number, sure: number) {
  const m = rules.questions[question]!.answers.length;
  return { slope: (1 - doubt) * sure, floor: ((1 - doubt) * (1 - sure) + doubt) / m };
}

export function surprisesOf(model: Model, group: Group, question: number, sure: number): Surprises {
  const table = group.table(question);
  let bySureness = kept.get(table);
  if (bySureness === undefined) {
    bySureness = new Map();
    kept.set(table, bySureness);
  }
  let known = bySureness.get(sure);
  if (known === undefined) {
    const { id, answers } = model.rules.questions[question]!;
    const moments = group.keep(`surprise/${id}/${group.doubt}/${sure}`, () =>
      momentsOf(table, answers.length, likelihood(model, group, question, sure)),
    );
    known = { ...moments, columns: [] };
    bySureness.set(sure, known);
  }
  return known;
}

/** Mean and variance of the surprise in each class; `m` answers a row. */
function momentsOf(
  table: Float64Array,
  m: number,
  { slope, floor }: { readonly slope: number; readonly floor: number },
) {
  const entropy = new Float64Array(table.length / m);
  const spread = new Float64Array(entropy.length);
  for (let c = 0, at = 0; c < entropy.length; c++) {
    let bits = 0;
    let square = 0;
    for (let a = 0; a < m; a++, at++) {
      const p = slope * table[at]! + floor;
      if (p === 0) continue;
      const s = -Math.log2(p);
      bits += p * s;
      square += p * s * s;
    }
    entropy[c] = bits;
    spread[c] = square - bits * bits;
  }
  return { entropy, spread };
}

/** The questions of the two answers that contradict each other and are least likely given all the others. */
function contradicting(
  model: Model,
  posterior: Posterior,
  evidence: readonly Evidence[],
  numbers: Numbers['fit'],
): readonly number[] {
  const told = surprising(model, posterior, evidence);
  const pairs = told
    .flatMap((a, i) => told.slice(i + 1).map((b) => ({ a, b, bits: a.bits + b.bits })))
    .filter(({ a, b }) => a.question !== b.question)
    .sort((one, other) => other.bits - one.bits);
  const together = togetherIn(model, posterior, numbers);
  const found = pairs.find(({ a, b }) => !together(a, b));
  return found === undefined ? [] : [found.a.question, found.b.question];
}

interface Surprising extends Told {
  readonly question: number;
  /** −log2 P(answer | all the others), in thousand-millionths, so that equal ones keep their order */
  readonly bits: number;
}

/** Every answer, most surprising first. */
function surprising(model: Model, posterior: Posterior, evidence: readonly Evidence[]): Surprising[] {
  const told = [...byGroup(model, evidence)].flatMap(([g, answers]) =>
    answers.map((left) => ({ g, answers, left })),
  );
  const surprise = told.map(({ g, answers, left }) => {
    const weights = classProbabilities(model.groups[g]!, posterior);
    const withIt = factorOf(model, g, answers).factor;
    const rest = groupFactor(
      model,
      g,
      answers.filter((e) => e !== left),
    );
    // P(a | the others) = 1 / Σ_h P(h | all) · P(group without a | h) / P(group with a | h)
    let inverse = 0;
    for (let c = 0; c < weights.length; c++) inverse += weights[c]! * (rest[c]! / withIt[c]!);
    return {
      group: g,
      evidence: left,
      question: left.question,
      bits: Math.round(Math.log2(inverse) * 1e9),
    };
  });
  return surprise.sort((a, b) => b.bits - a.bits || a.question - b.question);
}

/**
 * Jensen's conflict measure, log2(Π P(a_j) / P(a_1 … a_n)), in bits: positive when the answers speak against each other.
 * Jensen, F. V. (1996) An Introduction to Bayesian Networks, from memory.
 * @param prior weights of every set
 */
export function conflict(model: Model, prior: Float64Array, evidence: readonly Evidence[]): number {
  const together = update(model, prior, evidence).logEvidence;
  const apart = evidence.reduce((sum, e) => sum + update(model, prior, [e]).logEvidence, 0);
  return (apart - together) / Math.LN2;
}
