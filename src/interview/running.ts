/** The running line of an interview: the two leading explanations. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Consultation } from '../casework/consult.ts';
import { statedOf } from '../diagnosis/none.ts';
import type { Model } from '../diagnosis/model.ts';

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
