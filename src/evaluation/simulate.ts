/** Interviews made-up riders with the real engine, in a chosen order of questions. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Case, CaseAnswer } from '../casework/case.ts';
import { consult, type Consultation } from '../casework/consult.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Random, Rider } from './riders.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';

/** gain: as the interview asks; fixed: in the order of the rule base; random: any open question. */
export type Order = 'gain' | 'fixed' | 'random';
export const ORDERS: readonly Order[] = ['gain', 'fixed', 'random'];

export interface Interviewed {
  readonly truth: readonly number[];
  readonly asked: number;
  /** what the questions cost, in minutes of the rules */
  readonly minutes: number;
  readonly outcome: Consultation;
}

/**
 * @param most stop after this many questions whatever the stop rule says
 * @param untilMost ask on to `most`, past the stop rule, as long as questions are open, as of a rider who wants to go on
 */
export function interviewRider(
  model: Model,
  bench: PreparedBike,
  rider: Rider,
  order: Order,
  random: Random,
  most: number,
  untilMost = false,
): Interviewed {
  const answers: CaseAnswer[] = [];
  let lastTopic: string | undefined;
  const kase = (): Case => ({ id: 'rider', answers, results: [], earlier: [] });
  // Only the other orders look past the question asked first.
  const sparing = order === 'gain';
  const wishes = { next: true, explain: 0, fit: false, keepAsking: untilMost, sparing };
  let c = consult(model, bench, kase(), wishes);
  while (
    answers.length < most &&
    c.open.length > 0 &&
    (untilMost ? c.stop !== 'danger' : c.stop === undefined)
  ) {
    const question = pick(c, order, random);
    const { id, topic } = model.rules.questions[question]!;
    answers.push({ question: id, answer: rider.answer(question), sure: 'sure' });
    lastTopic = topic;
    c = consult(model, bench, kase(), { ...wishes, lastTopic });
  }
  const minutes = answers.reduce(
    (s, a) => s + model.rules.questions[model.questionIndex.get(a.question)!]!.minutes,
    0,
  );
  return { truth: rider.truth, asked: answers.length, minutes, outcome: c };
}

function pick(c: Consultation, order: Order, random: Random): number {
  const byRule = c.open.map((g) => g.question).sort((a, b) => a - b);
  switch (order) {
    case 'gain':
      return c.open[0]!.question;
    case 'fixed':
      return byRule[0]!;
    case 'random':
      return byRule[Math.floor(random() * byRule.length)]!;
  }
}

/** The rules with every question from memory or a ride a second time, in other words and the same topic. */
export function askedTwice(rules: CompiledRules): CompiledRules {
  const again = rules.questions
    .filter((q) => q.how !== 'stand' && q.either === undefined)
    .map((q) => ({ ...q, id: `${q.id} again`, ask: `Once more: ${q.ask}`, plain: `Once more: ${q.plain}` }));
  return { ...rules, questions: [...rules.questions, ...again] };
}

/** A rider who answers the second wording as the first: from the same impression, not from another look at the bike. */
export function sameAgain({ questions }: CompiledRules, rider: Rider): Rider {
  const index = new Map(questions.map((q, i) => [q.id, i]));
  const first = questions.map((q, i) => index.get(q.id.replace(/ again$/, '')) ?? i);
  return { truth: rider.truth, answer: (question) => rider.answer(first[question]!) };
}
