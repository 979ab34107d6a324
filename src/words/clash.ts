/** Statements of one text that contradict each other: told, never settled here. */
import type { Question } from '../rulebase/compiled.ts';
import type { Reading } from './matcher.ts';

/** @returns the readings; one that answers a question of an end otherwise than another says with which it clashes */
export function withClashes(
  readings: readonly Reading[],
  questions: ReadonlyMap<string, Question>,
): Reading[] {
  const settled = readings.filter((r) => !r.ambiguous);
  return readings.map((one) => {
    if (one.ambiguous) return one;
    const against = settled.filter((other) => other !== one && contradicts(one, other, questions));
    return against.length === 0 ? one : { ...one, clashes: [...new Set(against.map((r) => r.text))] };
  });
}

/** Only what is asked of one end: of the ride as a whole several things may hold. */
function contradicts(a: Reading, b: Reading, questions: ReadonlyMap<string, Question>): boolean {
  return a.candidates.some(({ question }) => {
    if (!question.includes('@')) return false;
    const usual = questions.get(question)!;
    const said = (r: Reading): string[] =>
      r.candidates.filter((c) => sameEnd(c.question, question)).map((c) => c.answer);
    const [mine, theirs] = [said(a), said(b)];
    return (
      usual.answers.length <= MOST_ANSWERS_OF_A_SCALE + 2 &&
      theirs.length > 0 &&
      theirs.every((answer) => !mine.includes(answer))
    );
  });
}

const MOST_ANSWERS_OF_A_SCALE = 4;

const [EITHER, AT] = ['either', '@'];

/** Whether two questions are one, of an end or of an end that was not named. */
export function sameEnd(a: string, b: string): boolean {
  const [topicA, endA] = a.split(AT);
  const [topicB, endB] = b.split(AT);
  return topicA === topicB && (endA === endB || endA === EITHER || endB === EITHER);
}
