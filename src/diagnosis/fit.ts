/** How well the whole story hangs together under the model. */
import { byGroup, factorOf, groupFactor, update, type Evidence } from './belief.ts';
import { classProbabilities, dot, heldBy, turned, type Posterior } from './overlap.ts';
import type { Model } from './model.ts';

export interface Fit {
  /** (surprise − expected surprise) / its standard deviation; large means strange */
  readonly z: number;
  /** the two answers that surprise most, given all the others; empty when the story holds */
  readonly reask: readonly number[];
}

/**
 * z = (Σ_j −log2 P(a_j|h) − Σ_j H(A_j|h)) / √Σ_j Var, numerator and variance averaged over the posterior.
 * Undefined for no answers.
 * @param strange above this z the two most surprising answers are named
 */
export function fitOf(
  model: Model,
  posterior: Posterior,
  evidence: readonly Evidence[],
  strange: number,
): Fit | undefined {
  if (evidence.length === 0) return undefined;
  let excess = 0;
  let variance = 0;
  for (const [g, answers] of byGroup(model, evidence)) {
    const held = heldBy(model.groups[g]!, posterior);
    for (const e of answers) {
      const { excess: more, spread } = surprises(model, g, e.question, e.sure);
      excess += dot(held, more[e.answer]!);
      variance += dot(held, spread);
    }
  }
  const z = variance > 0 ? excess / Math.sqrt(variance) : 0;
  return { z, reask: z > strange ? mostSurprising(model, posterior, evidence, 2) : [] };
}

/** Columns over the classes of the question's group, turned for `heldBy`. */
interface Surprises {
  /** for each answer, its surprise −log2 P(answer | class) above the mean (the entropy) of the class */
  readonly excess: readonly Float64Array[];
  /** variance of the surprise in the class */
  readonly spread: Float64Array;
}

const kept = new WeakMap<Float64Array, Map<number, Surprises>>();

/** The surprises of a question for each class; the same for every rider of the same sureness, so they are kept. */
function surprises(model: Model, g: number, question: number, sure: number): Surprises {
  const group = model.groups[g]!;
  const table = group.table(question);
  let bySureness = kept.get(table);
  if (bySureness === undefined) {
    bySureness = new Map();
    kept.set(table, bySureness);
  }
  const known = bySureness.get(sure);
  if (known !== undefined) return known;
  const m = model.rules.questions[question]!.answers.length;
  const d = group.doubt;
  const bits = table.map((p) => -Math.log2((1 - d) * (sure * p + (1 - sure) / m) + d / m));
  const mean = new Float64Array(table.length / m);
  const spread = new Float64Array(mean.length);
  for (let c = 0; c < mean.length; c++) {
    let square = 0;
    for (let a = 0; a < m; a++) {
      const s = bits[c * m + a]!;
      if (s === Infinity) continue;
      const p = 2 ** -s;
      mean[c]! += p * s;
      square += p * s * s;
    }
    spread[c] = square - mean[c]! ** 2;
  }
  const made: Surprises = {
    excess: Array.from({ length: m }, (_, a) =>
      turned(
        group,
        mean.map((s, c) => bits[c * m + a]! - s),
      ),
    ),
    spread: turned(group, spread),
  };
  bySureness.set(sure, made);
  return made;
}

/** Questions whose answers are least likely given all the other answers, most surprising first. */
function mostSurprising(
  model: Model,
  posterior: Posterior,
  evidence: readonly Evidence[],
  count: number,
): number[] {
  const surprise = evidence.map((left) => {
    const g = model.groupOf[left.question]!;
    const weights = classProbabilities(model.groups[g]!, posterior);
    const answers = evidence.filter((e) => model.groupOf[e.question] === g);
    const withIt = factorOf(model, g, answers).factor;
    const rest = groupFactor(
      model,
      g,
      answers.filter((e) => e !== left),
    );
    // P(a | the others) = 1 / Σ_h P(h | all) · P(group without a | h) / P(group with a | h)
    let inverse = 0;
    for (let c = 0; c < weights.length; c++) inverse += weights[c]! * (rest[c]! / withIt[c]!);
    return { question: left.question, bits: Math.round(Math.log2(inverse) * 1e9) };
  });
  return surprise
    .sort((a, b) => b.bits - a.bits || a.question - b.question)
    .slice(0, count)
    .map((s) => s.question);
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
