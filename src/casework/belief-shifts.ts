/** What each earlier trial did to what was believed: what it ruled out, and what it made likelier. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { update, type Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import { afterResult } from './after-result.ts';
import type { CaseResult, Round } from './case.ts';
import { hear } from './evidence.ts';
import { weighTried } from './weigh-tried.ts';

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

/** One lesson a result, in order; each goes on from the belief after the one before. */
export function lessonsOf(model: Model, bench: PreparedBike, rounds: readonly Round[]): Lesson[] {
  const lessons: Lesson[] = [];
  let prior = bench.prior;
  for (const round of rounds) {
    const { answers, results } = round;
    prior = weighTried(model, bench, prior, round).weights;
    let belief = update(model, prior, hear(model, answers, bench.fact).evidence);
    for (const result of results) {
      const after = afterResult(model, bench, belief, result);
      lessons.push({ result, placed: after !== undefined, moved: movedBy(bench, belief, after ?? belief) });
      belief = after ?? belief;
    }
    prior = belief.weights;
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
