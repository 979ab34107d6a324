/** The running line of an interview: the two leading explanations, and how settled it is. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Consultation } from '../casework/consult.ts';
import { statedOf } from '../diagnosis/none.ts';
import type { Model } from '../diagnosis/model.ts';

export interface Running {
  readonly leaders: readonly { readonly id: string; readonly name: string; readonly probability: number }[];
  /** 0..1; 1 = knowing more would not change the choice enough to matter */
  readonly settled: number;
}

/** @param bench of the bike: the causes are called as they are on it */
export function running(model: Model, bench: PreparedBike, c: Consultation): Running {
  const explanations = [
    { id: 'nothing', name: 'nothing off', probability: (1 - c.none) * c.belief.nothing },
    { id: 'none', name: 'none of these', probability: c.none },
    ...c.ranked.slice(0, 2).map((i) => ({
      id: model.rules.causes[i]!.id,
      name: bench.rules.causes[i]!.name,
      probability: statedOf(c.belief, c.none, i),
    })),
  ];
  const enough = model.rules.numbers.asking.enough;
  const knowing = c.advice.knowing();
  return {
    leaders: explanations.sort((a, b) => b.probability - a.probability).slice(0, 2),
    settled: knowing <= enough ? 1 : enough / knowing,
  };
}
