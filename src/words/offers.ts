/** What a phrase offers for confirmation: the answers it stands for, or those of its denial. */
import { withoutEnd, type Question } from '../rulebase/compiled.ts';
import type { Phrase } from '../rulebase/compiled-phrases.ts';
import { END_ANSWERS, type Ends } from './ends.ts';
import type { Candidate } from './matcher.ts';

/** The answers a phrase stands for, at the end that was named or at both. */
export function offered(
  phrase: Phrase,
  ends: Ends | undefined,
  questions: ReadonlyMap<string, Question>,
): Candidate[] {
  const all = phrase.couldBe.flatMap(({ question, answer }) =>
    atEnds(question, ends, questions).map((id) => ({ question: id, answer })),
  );
  const agreeing = all.filter(({ question, answer }) => agrees(questions.get(question), answer, ends));
  // Which end is no news where none was named and the words say something else.
  const plain = agreeing.filter(({ answer }) => ends !== undefined || !END_ANSWERS.has(answer));
  const fitting = plain.length > 0 ? plain : agreeing;
  return distinct(fitting, questions);
}

/**
 * What a denial offers: the answer without a sign, or, when that was denied, the signs; nothing when it is unclear.
 * Of a phrase that says where and what, the "what" is denied: "no kicks on a single root".
 */
export function opposites(
  phrase: Phrase,
  ends: Ends | undefined,
  questions: ReadonlyMap<string, Question>,
): Candidate[] {
  const atAnEnd = phrase.couldBe.filter((c) => c.question.includes('{end}'));
  const denied = atAnEnd.length > 0 ? atAnEnd : phrase.couldBe;
  if (phrase.ambiguous || new Set(denied.map((c) => c.question)).size !== 1) return [];
  // "No knock at the front" leaves the rear open.
  if (ends !== undefined && ends !== 'both' && phrase.couldBe.some((c) => END_ANSWERS.has(c.answer)))
    return [];
  return distinct(
    offered({ ...phrase, couldBe: denied }, ends, questions).flatMap(({ question, answer }) => {
      const { answers, default: usual } = questions.get(question)!;
      const denies = (id: string): boolean =>
        denied.some((c) => c.answer === id && atEnds(c.question, ends, questions).includes(question));
      // One of several signs denied leaves the others open.
      const open = answers.some(({ id }, i) => i !== usual && !denies(id));
      if (answers[usual]!.id === answer ? answers.length > MOST_SIGNS : open) return [];
      return answers
        .filter((a, i) => (answers[usual]!.id === answer ? i !== usual : i === usual))
        .map((a) => ({ question, answer: a.id }));
    }),
    questions,
  );
}

/** Answers of a question, at most, for a denial of the one without a sign to offer the signs. */
const MOST_SIGNS = 4;

/** A question or an answer that is about one end fits only words about that end. */
function agrees(question: Question | undefined, answer: string, ends: Ends | undefined): boolean {
  if (question === undefined) return false;
  if (ends === undefined) return true;
  if (question.end !== undefined && ends !== 'both' && question.end !== ends) return false;
  return !END_ANSWERS.has(answer) || answer === ends;
}

/** The question at the end that was named; where none was, the one that leaves the end open. */
export function atEnds(
  id: string,
  ends: Ends | undefined,
  questions: ReadonlyMap<string, Question>,
): string[] {
  if (!id.includes('{end}')) return [id];
  const open = id.replace('{end}', 'either');
  if (ends === undefined && questions.has(open)) return [open];
  const named = ends === 'front' || ends === 'rear' ? [ends] : ['front', 'rear'];
  return named.map((end) => id.replace('{end}', end));
}

/** Existing answers, each once. Words never clear a safety question: it is always asked and looked at. */
function distinct(
  answers: readonly { readonly question: string; readonly answer: string }[],
  questions: ReadonlyMap<string, Question>,
): Candidate[] {
  const seen = new Map<string, Candidate>();
  for (const { question, answer } of answers) {
    const asked = questions.get(question);
    const index = asked?.answers.findIndex((a) => a.id === answer) ?? -1;
    if (asked === undefined || index < 0 || (asked.safety && index === asked.default)) continue;
    seen.set(`${question}=${answer}`, { question, answer, confirmed: false });
  }
  return [...seen.values()];
}

/** @returns whether an answer is the one without a sign */
export function usualAnswers(
  questions: readonly Question[],
): (said: { readonly question: string; readonly answer: string }) => boolean {
  const usual = new Map(questions.map((q) => [withoutEnd(q.id), q.answers[q.default]!.id]));
  return ({ question, answer }) => usual.get(withoutEnd(question)) === answer;
}

/** @returns whether an answer stops the ride, at whatever end */
export function dangerousAnswers(
  questions: readonly Question[],
): (said: { readonly question: string; readonly answer: string }) => boolean {
  const stops = new Set(
    questions.flatMap((q) => Object.keys(q.dangerous).map((answer) => `${withoutEnd(q.id)}=${answer}`)),
  );
  return ({ question, answer }) => stops.has(`${withoutEnd(question)}=${answer}`);
}
