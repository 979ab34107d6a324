/** What stands beside a question: the leading explanations, and what each answer would do to them. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { consult, type Consultation } from '../casework/consult.ts';
import { statedOf } from '../diagnosis/none.ts';
import type { Model } from '../diagnosis/model.ts';
import { toCase, type Interview } from './state.ts';

export interface Why {
  readonly answer: string;
  readonly text: string;
  /** the cause that would lead, and how likely it would be then; null when nothing off would lead */
  readonly leads: { readonly id: string; readonly name: string; readonly probability: number } | null;
  /** how likely it is that nothing is off, then */
  readonly nothing: number;
}

/** For every answer of a question: what would lead once it is given, with all that was answered and ridden before. */
export function why(model: Model, bench: PreparedBike, state: Interview, question: string): Why[] {
  const kase = toCase(state);
  const others = kase.answers.filter((a) => a.question !== question);
  const index = model.questionIndex.get(question)!;
  return model.rules.questions[index]!.answers.map(({ id, text }) => {
    const answers = [...others, { question, answer: id, sure: 'sure' as const }];
    const { belief, none, ranked } = consult(
      model,
      bench,
      { ...kase, answers },
      { next: false, explain: 0, fit: false },
    );
    const top = ranked[0]!;
    const probability = statedOf(belief, none, top);
    const { id: cause, name } = bench.rules.causes[top]!;
    const nothing = (1 - none) * belief.nothing;
    const leads = nothing >= probability ? null : { id: cause, name, probability };
    return { answer: id, text, leads, nothing };
  });
}

/** The running line of an interview: the two leading explanations. */
export interface Running {
  readonly leaders: readonly { readonly id: string; readonly name: string; readonly probability: number }[];
  /** the next question is only asked because so much is claimed of the first */
  readonly looking: boolean;
}

/** @param bench of the bike: the causes are called as they are on it */
export function running(model: Model, bench: PreparedBike, c: Consultation): Running {
  const explanations = [
    { id: 'nothing', name: 'nothing off', probability: (1 - c.none) * c.belief.nothing },
    { id: 'none', name: 'something else', probability: c.none },
    ...c.ranked.slice(0, 2).map((i) => ({
      id: model.rules.causes[i]!.id,
      name: bench.rules.causes[i]!.name,
      probability: statedOf(c.belief, c.none, i),
    })),
  ];
  return {
    leaders: explanations.sort((a, b) => b.probability - a.probability).slice(0, 2),
    looking: c.looking,
  };
}
