/** A strength of the rules that is moved to other values. */
import type { Question } from '../../rulebase/compiled.ts';

/** Where a strength stands in one question, all by index. */
export interface Spot {
  readonly question: number;
  /** the sign */
  readonly answer: number;
  /** -1 for a base rate */
  readonly cause: number;
}

/** One word of the rules, which may stand at both ends. */
export interface Movable {
  /** its probability */
  readonly value: number;
  readonly spots: readonly Spot[];
}

/** The questions with the strength at another value, by index; few of those that try it need them. */
export type Questions = () => ReadonlyMap<number, Question>;

/** What comes of it at another value; what is the same at all values is worked out once. */
export type Under<Result> = (to: number, questions: Questions) => Result;
