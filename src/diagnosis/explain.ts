/** What each answer did to a cause, in decibans (10·log10 of the odds with and without it). */
import { byGroup, factorOf, groupFactor, type Belief, type Evidence } from './belief.ts';
import { logOdds } from './log-odds.ts';
import type { Model } from './model.ts';
import { isWide, mean, meanWith, turned, type Posterior } from './fast/class-marginals.ts';

export interface AnswerEffect {
  readonly question: number;
  readonly answer: number;
  readonly decibans: number;
}

/**
 * For each of `causes`, the effect of every answer. A group's effect is the cause's log odds with and without the whole
 * group; it is split over the group's answers in proportion to what each would do alone, so that the list adds up.
 * @param posterior of `belief`
 */
export function effects(
  model: Model,
  belief: Belief,
  posterior: Posterior,
  evidence: readonly Evidence[],
  causes: readonly number[],
): Map<number, AnswerEffect[]> {
  const lists = causes.map((): AnswerEffect[] => []);
  for (const [g, answers] of byGroup(model, evidence)) {
    const had = factorOf(model, g, answers).factor;
    const without = oddsInstead(model, g, posterior, unsaid(had), causes);
    const alone =
      answers.length === 1
        ? []
        : answers.map((a) => {
            const has = groupFactor(model, g, [a]);
            return oddsInstead(model, g, posterior, { ratio: has.map((f, c) => f / had[c]!) }, causes);
          });
    causes.forEach((cause, i) => {
      const before = without[i]!;
      const change = logOdds(belief.causes[cause]!) - before;
      const shares =
        alone.length === 0
          ? [change]
          : split(
              change,
              alone.map((odds) => odds[i]! - before),
            );
      answers.forEach(({ question, answer }, j) =>
        lists[i]!.push({ question, answer, decibans: shares[j]! }),
      );
    });
  }
  const size = (e: AnswerEffect): number => Math.round(Math.abs(e.decibans) * 1e9);
  for (const list of lists) list.sort((a, b) => size(b) - size(a) || a.question - b.question);
  return new Map(causes.map((c, i) => [c, lists[i]!]));
}

const inverses = new WeakMap<Float64Array, Instead>();

/** What a group's classes would weigh, against what they do, had its answers been others or none. */
interface Instead {
  readonly ratio: Float64Array;
  /** filled in when first needed */
  turned?: Float64Array;
}

/** Had the group said nothing. Kept, because the factor of a single answer is the same for every rider. */
function unsaid(had: Float64Array): Instead {
  let inverse = inverses.get(had);
  if (inverse === undefined) {
    inverse = { ratio: had.map((f) => 1 / f) };
    inverses.set(had, inverse);
  }
  return inverse;
}

/** Log odds of each of `causes`, had the group's answers been others. */
function oddsInstead(
  model: Model,
  g: number,
  posterior: Posterior,
  instead: Instead,
  causes: readonly number[],
): number[] {
  const group = model.groups[g]!;
  if (isWide(group, posterior)) {
    const all = new Float64Array(model.space.causes);
    model.weigh(posterior.weights, [{ group: g, factor: instead.ratio }], model.scratch, all);
    return causes.map((c) => logOdds(all[c]!));
  }
  const values = (instead.turned ??= turned(group, posterior, instead.ratio));
  const total = mean(group, posterior, values);
  return causes.map((c) => logOdds(meanWith(model, group, posterior, values, c) / total));
}

/** Parts of `total` in proportion to `own`; where those cancel out, the difference is shared evenly instead. */
function split(total: number, own: readonly number[]): number[] {
  const sum = own.reduce((s, x) => s + x, 0);
  const size = own.reduce((s, x) => s + Math.abs(x), 0);
  // Proportions blow up when large parts nearly cancel; then each keeps its own and the rest is shared evenly.
  if (Math.abs(sum) < 0.25 * size || size === 0) return own.map((x) => x + (total - sum) / own.length);
  return own.map((x) => (x * total) / sum);
}
