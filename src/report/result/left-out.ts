/** What was told and not counted, each with why. */
import { printDeed } from '../../bike/deed.ts';
import type { Consultation } from '../../casework/consult.ts';
import type { Model } from '../../diagnosis/model.ts';

export function leftOut(model: Model, { heard, tried, unplaced }: Consultation): string[] {
  return [
    ...heard.contradictions.map((x) => notCounted(model, x)),
    ...tried.left.map((why) => `Something that was tried was left out: ${why}`),
    ...unplaced.map(
      (change) => `The trial of ${printDeed(change)} was not counted: no rule covers that change.`,
    ),
  ];
}

/** An answer that does not apply, and what says so: another answer, or what is known of the bike. */
function notCounted(
  { rules, questionIndex }: Model,
  { question, against, value }: Consultation['heard']['contradictions'][number],
): string {
  const asked = (id: string) => rules.questions[questionIndex.get(id) ?? -1];
  const other = asked(against);
  const why =
    other === undefined
      ? `with what is known of ${rules.settings.find(({ id }) => id === against)?.name ?? 'the bike'}`
      : `after "${other.answers.find(({ id }) => id === value)?.text ?? value}" to "${other.ask}"`;
  return `The answer to "${asked(question)?.ask ?? question}" was not counted: it does not apply ${why}.`;
}
