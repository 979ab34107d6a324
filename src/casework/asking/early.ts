/** Questions that what was said or tried puts before all others but those of safety. */
import { mayBeGiven } from '../../advice/hold-back.ts';
import type { Known } from '../../diagnosis/gates.ts';
import type { Gain } from '../../diagnosis/inquiry.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { TriedEffect } from '../tried/weigh-tried.ts';
import type { Advice } from '../../advice/advise.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';

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

/** Whether something that was said of an end, or tried there, calls for it: then it is asked at whichever end it is about. */
export function isCalledByEnd(
  model: Model,
  question: number,
  known: Known,
  tried: Parameters<typeof isEarly>[3],
): boolean {
  const { rules, questionIndex } = model;
  const answers = new Map(
    [...known.answers].filter(([id]) => rules.questions[questionIndex.get(id) ?? -1]?.end !== undefined),
  );
  return isEarly(model, question, { ...known, answers }, tried);
}

/** Whether a sign or what was tried calls for it, and not only that the look over the bike was done. */
function isCalledFor(
  model: Model,
  question: number,
  { answers, ...known }: Known,
  tried: Parameters<typeof isEarly>[3],
): boolean {
  const { rules, questionIndex } = model;
  const signs = new Map(
    [...answers].filter(([id]) => rules.questions[questionIndex.get(id) ?? -1]?.safety !== true),
  );
  return isEarly(model, question, { ...known, answers: signs }, tried);
}

/** Whether it is the question of safety that a danger calls for: it says where that was found, and is asked before riding is stopped. */
export function saysWhere(model: Model, question: number, known: Known): boolean {
  return model.rules.questions[question]!.safety && isEarly(model, question, known, []);
}

/**
 * In the same order, but first what says where a danger was found, and the early ones right after those of safety: what a sign
 * calls for, of that the looks that may find a danger, then what is asked of every bike that was looked over.
 */
export function earlyFirst(
  model: Model,
  ranking: readonly Gain[],
  known: Known,
  tried: readonly Pick<TriedEffect, 'tried' | 'changes' | 'couldBe'>[],
): readonly Gain[] {
  const { questions } = model.rules;
  const rankOf = ({ question }: Gain): number =>
    questions[question]!.safety
      ? saysWhere(model, question, known)
        ? -1
        : 0
      : !isEarly(model, question, known, tried)
        ? 4
        : !isCalledFor(model, question, known, tried)
          ? 3
          : Object.keys(questions[question]!.dangerous).length > 0
            ? 1
            : 2;
  const ranks = new Map(ranking.map((gain) => [gain, rankOf(gain)]));
  return [...ranking].sort((a, b) => ranks.get(a)! - ranks.get(b)!);
}

/** The open question that says which spring an end has, where what is first, or waits behind it, needs one kind and nobody said which it is. */
export function asksSpring(
  { rules }: Model,
  { fact }: PreparedBike,
  { verdict, first, insteadOf }: Advice,
  ranking: readonly Gain[],
): Gain | undefined {
  if (verdict !== 'change') return undefined;
  const unsaid = [first, insteadOf?.adjustment].flatMap((index) =>
    index === undefined
      ? []
      : Object.keys(rules.adjustments[index]!.needs).filter((path) => fact(path) === undefined),
  );
  return ranking.find(({ question }) => {
    const { end, tells = {} } = rules.questions[question]!;
    return unsaid.includes(`${end}.spring`) && Object.values(tells).some(({ spring }) => spring === 'air');
  });
}
