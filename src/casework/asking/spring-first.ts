/** Which kind of spring an end has is asked before a part is named that only one kind has. */
import type { Advice } from '../../advice/advise.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Gain } from '../../diagnosis/inquiry.ts';
import type { Model } from '../../diagnosis/model.ts';

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
