/** Of a question that is asked once for the whole bike, the readings of one text give one answer at most. */
import type { Question } from '../../rulebase/compiled.ts';
import type { Candidate, Reading } from '../matcher.ts';
import { END_ANSWERS } from '../ends.ts';

interface Said {
  readonly answers: ReadonlySet<string>;
  readonly words: number;
}

/**
 * Two readings that answer one question differently are a guess at best. The one whose words say most stays, of equals
 * the one said first; where they give different ends, neither stays. What is asked of an end is left alone: there a
 * contradiction is told. So is what stops the ride: of two dangers both are asked about.
 */
export function onePerQuestion(
  readings: readonly Reading[],
  questions: ReadonlyMap<string, Pick<Question, 'dangerous'>>,
): Reading[] {
  const settled = settle(readings, questions);
  const stays = ({ question, answer }: Candidate): boolean => settled.get(question)?.has(answer) ?? true;
  return readings.flatMap((r) => {
    if (r.negated || r.candidates.every(stays)) return [r];
    const candidates = r.candidates.filter(stays);
    return candidates.length === 0 ? [] : [{ ...r, candidates }];
  });
}

/** @returns for each question that is answered differently, the answers that stay */
function settle(
  readings: readonly Reading[],
  questions: ReadonlyMap<string, Pick<Question, 'dangerous'>>,
): Map<string, ReadonlySet<string>> {
  const said = new Map<string, Said[]>();
  for (const { candidates, negated, text } of readings) {
    if (negated) continue;
    for (const question of new Set(candidates.map((c) => c.question))) {
      if (question.includes('@')) continue;
      const answers = new Set(candidates.filter((c) => c.question === question).map((c) => c.answer));
      said.set(question, [...(said.get(question) ?? []), { answers, words: text.split(' ').length }]);
    }
  }
  const out = new Map<string, ReadonlySet<string>>();
  for (const [question, all] of said) {
    const answers = new Set(all.flatMap((s) => [...s.answers]));
    if (answers.size === 1 || all.length === 1) continue;
    if ([...answers].some((answer) => questions.get(question)?.dangerous[answer] !== undefined)) continue;
    const common = [...answers].filter((answer) => all.every((s) => s.answers.has(answer)));
    const most = Math.max(...all.map((s) => s.words));
    if (common.length > 0) out.set(question, new Set(common));
    else if ([...answers].every((answer) => END_ANSWERS.has(answer))) out.set(question, new Set());
    else out.set(question, all.find((s) => s.words === most)!.answers);
  }
  return out;
}
