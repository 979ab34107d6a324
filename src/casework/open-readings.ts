/** What of a case's free text its answers have not settled. */
import { contradiction, type Known } from '../diagnosis/gates.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Reading } from '../words/matcher.ts';
import type { Case } from './case.ts';

/**
 * What was asked since is settled, and so is what does not apply after it: repeating it would only bury what was not.
 * @param readings of what was said
 */
export function openReadings(
  { rules, questionIndex }: Model,
  { answers }: Pick<Case, 'answers'>,
  readings: readonly Reading[],
): Reading[] {
  const known: Known = {
    answers: new Map(answers.map((a) => [a.question, a.answer])),
    bike: () => undefined,
  };
  const settled = (id: string): boolean => {
    const question = rules.questions[questionIndex.get(id) ?? -1];
    // Of an end that was not named, either end's own answer settles it, and so does what rules both out.
    if (question?.either !== undefined) {
      const ends = question.either.map((end) => rules.questions[end]!.id);
      return (
        known.answers.has(id) ||
        ends.some((end) => known.answers.has(end)) ||
        ends.every((end) => settled(end))
      );
    }
    return known.answers.has(id) || (question !== undefined && contradiction(question, known) !== undefined);
  };
  return readings
    .map((r) => ({
      ...r,
      candidates: r.candidates.filter((c) => !settled(c.question)),
      separates: r.separates.filter((q) => !settled(q)),
    }))
    .filter((r) => r.candidates.length > 0 || (r.ambiguous && r.separates.length > 0));
}
