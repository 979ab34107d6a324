/** One answer told again in other words: what a model must not take for twice the evidence. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { Rider } from './riders.ts';

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
