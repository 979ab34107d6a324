/** Questions that what was said or tried puts before all others but those of safety. */
import { mayBeGiven } from '../../advice/hold-back.ts';
import type { Known } from '../../diagnosis/gates.ts';
import type { Gain } from '../../diagnosis/inquiry.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { TriedEffect } from '../tried/weigh-tried.ts';

/** Whether an answer, or what turning something did, makes this question one to ask at once. */
export function isEarly(
  { rules }: Model,
  question: number,
  known: Known,
  tried: readonly Pick<TriedEffect, 'tried' | 'changes' | 'couldBe'>[],
): boolean {
  return (rules.questions[question]!.earlyWhen ?? []).some(({ on, id, values }) =>
    on === 'question'
      ? mayBeGiven([{ on, id, values }], known)
      : tried.some(
          ({ tried: { result }, changes, couldBe = changes }) =>
            values.includes(result) && couldBe.some(({ setting }) => setting === id),
        ),
  );
}

/** In the same order, but the early ones right after those of safety. */
export function earlyFirst(
  model: Model,
  ranking: readonly Gain[],
  known: Known,
  tried: readonly Pick<TriedEffect, 'tried' | 'changes' | 'couldBe'>[],
): readonly Gain[] {
  const { questions } = model.rules;
  const rankOf = ({ question }: Gain): number =>
    questions[question]!.safety ? 0 : isEarly(model, question, known, tried) ? 1 : 2;
  const early = ranking.filter((gain) => rankOf(gain) === 1);
  return early.length === 0
    ? ranking
    : [
        ...ranking.filter((gain) => rankOf(gain) === 0),
        ...early,
        ...ranking.filter((gain) => rankOf(gain) === 2),
      ];
}
