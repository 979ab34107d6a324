/** What each answer did to a cause, in decibans (10·log10 of the odds with and without it). */
import { byGroup, groupFactor, type Belief, type Evidence } from './belief.ts';
import { marginals } from './hypotheses.ts';
import type { Model } from './model.ts';

export interface AnswerEffect {
  readonly question: number;
  readonly answer: number;
  readonly decibans: number;
}

/**
 * For each of `causes`, the effect of every answer. A group's effect is the cause's log odds with and without the whole
 * group; it is split over the group's answers in proportion to what each would do alone, so that the list adds up.
 */
export function effects(
  model: Model,
  belief: Belief,
  evidence: readonly Evidence[],
  causes: readonly number[],
): Map<number, AnswerEffect[]> {
  const out = new Map<number, AnswerEffect[]>(causes.map((c) => [c, []]));
  const now = causes.map((c) => logOdds(belief.causes[c]!));
  for (const [g, answers] of byGroup(model, evidence)) {
    const all = causeProbabilities(model, belief, g, answers, []);
    const alone =
      answers.length === 1 ? [] : answers.map((a) => causeProbabilities(model, belief, g, answers, [a]));
    causes.forEach((cause, i) => {
      const before = logOdds(all[cause]!);
      const total = now[i]! - before;
      const own = alone.map((p) => logOdds(p[cause]!) - before);
      const shares = answers.length === 1 ? [total] : split(total, own);
      answers.forEach(({ question, answer }, j) =>
        out.get(cause)!.push({ question, answer, decibans: shares[j]! }),
      );
    });
  }
  for (const list of out.values())
    list.sort((a, b) => Math.abs(b.decibans) - Math.abs(a.decibans) || a.question - b.question);
  return out;
}

/** Probability of each cause when the group had given `instead` rather than `answers`. */
function causeProbabilities(
  model: Model,
  belief: Belief,
  g: number,
  answers: readonly Evidence[],
  instead: readonly Evidence[],
): Float64Array {
  const { space } = model;
  const had = groupFactor(model, g, answers);
  const has = groupFactor(model, g, instead);
  const ratio = had.map((f, c) => has[c]! / f);
  const classOf = model.groups[g]!.classOf();
  const weights = new Float64Array(space.size);
  let total = 0;
  for (let h = 0; h < space.size; h++) total += weights[h] = belief.weights[h]! * ratio[classOf[h]!]!;
  const out = marginals(space, weights, new Float64Array(space.size), new Float64Array(space.causes));
  for (let c = 0; c < out.length; c++) out[c]! /= total;
  return out;
}

/** Parts of `total` in proportion to `own`; where those cancel out, the difference is shared evenly instead. */
function split(total: number, own: readonly number[]): number[] {
  const sum = own.reduce((s, x) => s + x, 0);
  const size = own.reduce((s, x) => s + Math.abs(x), 0);
  // Proportions blow up when large parts nearly cancel; then each keeps its own and the rest is shared evenly.
  if (Math.abs(sum) < 0.25 * size || size === 0) return own.map((x) => x + (total - sum) / own.length);
  return own.map((x) => (x * total) / sum);
}

function logOdds(p: number): number {
  return 10 * Math.log10(p / (1 - p));
}
