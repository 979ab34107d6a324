/** What each answer did to a cause, in decibans (10·log10 of the odds with and without it). */
import { byGroup, factorOf, type Belief, type Evidence } from './belief.ts';
import type { Model } from './model.ts';
import { classProbabilities, setsWith, type Posterior } from './overlap.ts';

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
  posterior: Posterior,
  evidence: readonly Evidence[],
  causes: readonly number[],
): Map<number, AnswerEffect[]> {
  const out = new Map<number, AnswerEffect[]>(causes.map((c) => [c, []]));
  for (const [g, answers] of byGroup(model, evidence)) {
    const group = model.groups[g]!;
    const classOf = group.classOf();
    const had = factorOf(model, g, answers).factor;
    // A group that says nothing has a factor of one everywhere.
    const none = had.map((f) => 1 / f);
    const alone = answers.length === 1 ? [] : answers.map((a) => replaced(model, g, had, [a]));
    const weights = classProbabilities(model, group, posterior);
    const totals = [none, ...alone].map((ratio) => dot(weights, ratio));
    for (const cause of causes) {
      const sets = setsWith(model.space, cause);
      const odds = (ratio: Float64Array, total: number): number => {
        let sum = 0;
        for (let i = 0; i < sets.length; i++)
          sum += posterior.weights[sets[i]!]! * ratio[classOf[sets[i]!]!]!;
        return logOdds(sum / total);
      };
      const before = odds(none, totals[0]!);
      const change = logOdds(belief.causes[cause]!) - before;
      const shares =
        answers.length === 1
          ? [change]
          : split(
              change,
              alone.map((ratio, i) => odds(ratio, totals[i + 1]!) - before),
            );
      answers.forEach(({ question, answer }, i) =>
        out.get(cause)!.push({ question, answer, decibans: shares[i]! }),
      );
    }
  }
  for (const list of out.values()) {
    const size = (e: AnswerEffect): number => Math.round(Math.abs(e.decibans) * 1e9);
    list.sort((a, b) => size(b) - size(a) || a.question - b.question);
  }
  return out;
}

/** For each class, what its weight is multiplied by when the group had given `instead` rather than all its answers. */
function replaced(model: Model, g: number, had: Float64Array, instead: readonly Evidence[]): Float64Array {
  const has = factorOf(model, g, instead).factor;
  return has.map((f, c) => f / had[c]!);
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
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
