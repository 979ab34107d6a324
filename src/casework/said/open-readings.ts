/** What of a case's free text its answers have not settled. */
import { contradiction, type Known } from '../../diagnosis/gates.ts';
import type { Model } from '../../diagnosis/model.ts';
import { sameEnd } from '../../words/clash.ts';
import type { Candidate, Reading } from '../../words/matcher.ts';
import type { Case } from '../case.ts';
import { allOf } from '../several.ts';

/**
 * Readings less what the rider said he did not mean, unless he answered so since. A denial stays, and so do opposite
 * meanings of which not every sign was declined, or of which nothing that tells them apart was answered.
 */
export function meantOf(
  { answers, interview }: Pick<Case, 'answers' | 'interview'>,
  readings: readonly Reading[],
): readonly Reading[] {
  const notMeant = interview?.notMeant;
  if (notMeant === undefined) return readings;
  // What was declined of one end was declined of an end that was not named.
  const declined = (c: Candidate): boolean =>
    Object.entries(notMeant).some(([question, no]) => no.includes(c.answer) && sameEnd(question, c.question));
  const given = (c: Candidate): boolean =>
    answers.some(
      ({ question, answer, also = [] }) => question === c.question && [answer, ...also].includes(c.answer),
    );
  return readings.flatMap((reading) => {
    if (reading.candidates.length === 0) {
      // "None of these" said to all that they could show: what is answered since about these is another matter.
      const { couldShow = [], separates } = reading;
      const since = answers.some((a) => separates.some((question) => sameEnd(a.question, question)));
      return since && couldShow.length > 0 && couldShow.every((c) => declined(c) && !given(c))
        ? []
        : [reading];
    }
    const candidates = reading.candidates.filter((c) => given(c) || !declined(c));
    return candidates.length === 0 ? [] : [{ ...reading, candidates }];
  });
}

/** One answer to what tells its meanings apart has begun to settle what was meant; the diagnosis goes on from there. */
function isWhole({ separates: open }: Reading, { separates: all }: Reading): boolean {
  return open.length > 0 && open.length === all.length;
}

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
  /** One of its signs was picked, or answered since. */
  const isPicked = ({ couldShow = [] }: Reading): boolean =>
    couldShow.some((sign) =>
      answers.some((a) => a.question === sign.question && allOf(a).includes(sign.answer)),
    );
  return readings
    .map((r) => ({
      ...r,
      candidates: r.candidates.filter((c) => !settled(c.question)),
      separates: r.separates.filter((q) => !settled(q)),
    }))
    .filter((r, i) => r.candidates.length > 0 || (r.ambiguous && isWhole(r, readings[i]!) && !isPicked(r)));
}
