/** What each earlier trial did to what was believed: what it ruled out, and what it made likelier. */
import type { Bench } from '../advice/bench.ts';
import type { Model } from '../diagnosis/model.ts';
import type { CaseResult, Round } from './case.ts';
import { consult } from './consult.ts';

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

/** One lesson a result, in order. */
export function lessonsOf(model: Model, bench: Bench, rounds: readonly Round[]): Lesson[] {
  const believe = (earlier: readonly Round[]): { causes: Float64Array; unplaced: readonly string[] } => {
    const kase = { id: 'lessons', answers: [], results: [], earlier };
    const { belief, unplaced } = consult(model, bench, kase, { next: false, explain: 0, fit: false });
    return { causes: belief.causes, unplaced };
  };
  return rounds.flatMap((round, r) => {
    const upTo = (count: number): readonly Round[] => [
      ...rounds.slice(0, r),
      { answers: round.answers, results: round.results.slice(0, count) },
    ];
    let before = believe(upTo(0));
    return round.results.map((result, i): Lesson => {
      const after = believe(upTo(i + 1));
      const moved = model.rules.causes
        .map(({ id, name }, c) => ({ cause: id, name, before: before.causes[c]!, after: after.causes[c]! }))
        .filter((m) => Math.abs(m.after - m.before) >= NOTABLE)
        .sort((a, b) => Math.abs(b.after - b.before) - Math.abs(a.after - a.before));
      const placed = after.unplaced.length === before.unplaced.length;
      before = after;
      return { result, placed, moved };
    });
  });
}
