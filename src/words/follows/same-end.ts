/** Which end it is at, where the signs that were told are of one end and nothing says it by itself. */
import type { CompiledRules, Question } from '../../rulebase/compiled.ts';
import { isAboutEnd, isNoComplaint } from '../../rulebase/no-complaint.ts';
import { END_ANSWERS } from '../ends.ts';
import { usualAnswers } from '../offers.ts';
import type { Candidate, Reading } from '../matcher.ts';

type Adds = (readings: readonly Reading[]) => Reading[];
type Tells = (said: Candidate) => boolean;

/**
 * @returns the readings of one text; the first that tells a sign of an end offers that end too, where all of them are of that
 *   one: of what has the trouble, and of a find that waits to be told where it is
 */
export function whichEndOf(questions: CompiledRules['questions']): Adds {
  const isUsual = usualAnswers(questions);
  const beside = new Set(questions.filter(isNoComplaint).map(({ id }) => id));
  const isSign: Tells = (said) => !isUsual(said) && !beside.has(said.question);
  const adders = questions.flatMap((q): Adds[] => {
    if (isAboutEnd(q)) return [adderOf(q, isSign)];
    if (q.end !== undefined || !q.answers.some(({ id }) => END_ANSWERS.has(id))) return [];
    return q.gates.map(({ id, values }) =>
      adderOf(q, ({ question, answer }) => question === id && values.includes(answer)),
    );
  });
  return (readings) => adders.reduce<Reading[]>((all, add) => add(all), [...readings]);
}

function adderOf({ id }: Question, tells: Tells): Adds {
  return (readings) => {
    const told = readings.filter(
      ({ end, negated, candidates }) => end !== undefined && !negated && candidates.some(tells),
    );
    const [first] = told;
    if (
      first === undefined ||
      told.some(({ end }) => end !== first.end) ||
      readings.some((r) => r.candidates.some(({ question }) => question === id))
    )
      return [...readings];
    const adds = { question: id, answer: first.end!, confirmed: false as const };
    return readings.map((r) => (r === first ? { ...r, candidates: [...r.candidates, adds] } : r));
  };
}
