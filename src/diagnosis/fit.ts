/** How well the whole story hangs together under the model. */
import { byGroup, groupFactor, update, type Belief, type Evidence } from './belief.ts';
import { supersetSums } from './hypotheses.ts';
import { classProbabilities } from './inquiry.ts';
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
  belief: Belief,
  evidence: readonly Evidence[],
  strange: number,
): Fit | undefined {
  if (evidence.length === 0) return undefined;
  const containing = supersetSums(model.space, belief.weights, new Float64Array(model.space.size));
  let excess = 0;
  let variance = 0;
  for (const [g, answers] of byGroup(model, evidence)) {
    const group = model.groups[g]!;
    const weights = classProbabilities(model, group, containing);
    const d = group.doubt;
    for (const { question, answer, sure } of answers) {
      const m = model.rules.questions[question]!.answers.length;
      const table = group.table(question);
      for (let c = 0; c < weights.length; c++) {
        const w = weights[c]!;
        if (w === 0) continue;
        let mean = 0;
        let square = 0;
        let seen = 0;
        for (let a = 0; a < m; a++) {
          const p = (1 - d) * (sure * table[c * m + a]! + (1 - sure) / m) + d / m;
          const surprise = -Math.log2(p);
          if (p > 0) {
            mean += p * surprise;
            square += p * surprise * surprise;
          }
          if (a === answer) seen = surprise;
        }
        excess += w * (seen - mean);
        variance += w * (square - mean * mean);
      }
    }
  }
  const z = variance > 0 ? excess / Math.sqrt(variance) : 0;
  return { z, reask: z > strange ? mostSurprising(model, belief, evidence, 2) : [] };
}

/** Questions whose answers are least likely given all the other answers, most surprising first. */
function mostSurprising(
  model: Model,
  belief: Belief,
  evidence: readonly Evidence[],
  count: number,
): number[] {
  const surprise = evidence.map((left) => {
    const g = model.groupOf[left.question]!;
    const answers = evidence.filter((e) => model.groupOf[e.question] === g);
    const without = answers.filter((e) => e !== left);
    const withIt = groupFactor(model, g, answers);
    const rest = groupFactor(model, g, without);
    const classOf = model.groups[g]!.classOf();
    // P(a | the others) = 1 / Σ_h P(h | all) · P(group without a | h) / P(group with a | h)
    let inverse = 0;
    for (let h = 0; h < belief.weights.length; h++)
      inverse += belief.weights[h]! * (rest[classOf[h]!]! / withIt[classOf[h]!]!);
    return { question: left.question, bits: Math.log2(inverse) };
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
