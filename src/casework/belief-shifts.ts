/** What each earlier trial did to what was believed: what it ruled out, and what it made likelier. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { update, type Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import { afterResult } from './trial-effect.ts';
import type { Case, CaseResult, Round } from './case.ts';
import { heardOnce, roundsOfCase } from './retold.ts';
import { triedOnce } from './tried/told-once.ts';
import { weighTried } from './tried/weigh-tried.ts';

export interface Lesson {
  readonly result: CaseResult;
  /** false when no rule says what the change does */
  readonly placed: boolean;
  /** causes by how far they moved, farthest first; probabilities before and after the trial */
  readonly moved: readonly {
    readonly cause: string;
    readonly name: string;
    readonly before: number;
    readonly after: number;
  }[];
}

/** A cause that moved less than this is not worth a word. */
const NOTABLE = 0.03;

/**
 * One lesson a result, in order; each goes on from the belief after the one before, which is that of a case told so far.
 */
export function lessonsOf(model: Model, bench: PreparedBike, kase: Pick<Case, 'earlier'> & Round): Lesson[] {
  const rounds = roundsOfCase(kase);
  const tries = roundsOfCase(triedOnce(model, bench, kase));
  const lessons: Lesson[] = [];
  /** weights before each round, and how many of its answers counted in those after it */
  const before = [bench.prior];
  const weighed: number[] = [];
  for (const i of rounds.keys()) {
    const counted = heardOnce(model, bench.fact, rounds.slice(0, i + 1));
    // What this round says again counts no more where it was said first: the belief goes on from there.
    const from = counted.findIndex(({ length }, j) => length !== weighed[j]);
    for (let j = from < 0 ? i : from; j <= i; j++) {
      const prior = weighTried(model, bench, before[j]!, tries[j]!).weights;
      let belief = update(model, prior, counted[j]!);
      for (const result of rounds[j]!.results) {
        const after = afterResult(model, bench, belief, result);
        if (j === i)
          lessons.push({
            result,
            placed: after !== undefined,
            moved: movedBy(bench, belief, after ?? belief),
          });
        belief = after ?? belief;
      }
      before[j + 1] = belief.weights;
      weighed[j] = counted[j]!.length;
    }
  }
  return lessons;
}

/** The causes are called as they are on this bike. */
function movedBy({ rules }: PreparedBike, before: Belief, after: Belief): Lesson['moved'] {
  return rules.causes
    .map(({ id, name }, c) => ({ cause: id, name, before: before.causes[c]!, after: after.causes[c]! }))
    .filter((m) => Math.abs(m.after - m.before) >= NOTABLE)
    .sort((a, b) => Math.abs(b.after - b.before) - Math.abs(a.after - a.before));
}
