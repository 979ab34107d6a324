/** Which end has the trouble, where all signs that were told are of one end and nothing says it by itself. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import { isAboutEnd, isNoComplaint } from '../rulebase/no-complaint.ts';
import { usualAnswers } from './offers.ts';
import type { Candidate, Reading } from './matcher.ts';

/** @returns the readings of one text, of which the first that tells a sign of that end offers the end too */
export function whichEndOf(
  questions: CompiledRules['questions'],
): (readings: readonly Reading[]) => Reading[] {
  const about = questions.find(isAboutEnd);
  const isUsual = usualAnswers(questions);
  const beside = new Set(questions.filter(isNoComplaint).map(({ id }) => id));
  const isSign = (said: Candidate): boolean => !isUsual(said) && !beside.has(said.question);
  return (readings) => {
    const told = readings.filter(
      ({ end, negated, candidates }) => end !== undefined && !negated && candidates.some(isSign),
    );
    const [first] = told;
    if (about === undefined || first === undefined || told.some(({ end }) => end !== first.end))
      return [...readings];
    if (readings.some((r) => r.candidates.some(({ question }) => question === about.id)))
      return [...readings];
    const adds = { question: about.id, answer: first.end!, confirmed: false as const };
    return readings.map((r) => (r === first ? { ...r, candidates: [...r.candidates, adds] } : r));
  };
}
