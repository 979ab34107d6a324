/** The answers of a case file, each checked against its question. */
import { CANNOT_TELL, EITHER, NOT_NOW } from '../rulebase/compiled.ts';
import { readSeveral } from './read-several.ts';
import { didYouMean } from '../form/suggest.ts';
import type { CaseAnswer, CaseVocabulary, Sure, Wrong } from './case.ts';
import { isMap } from '../form/is-map.ts';
import { kindOf, shorten, show } from './value-label.ts';

const SURE: readonly string[] = ['sure', 'fairly', 'guess'];

export function readAnswers(
  raw: unknown,
  at: readonly (string | number)[],
  { questions, retired }: CaseVocabulary,
  wrong: Wrong,
): CaseAnswer[] {
  if (raw === undefined || raw === null) return [];
  if (!isMap(raw)) {
    wrong(
      at,
      `answers must be a map of question: answer, found ${kindOf(raw)}.`,
      'Write each as question-id: answer.',
    );
    return [];
  }
  const out: CaseAnswer[] = [];
  for (const id of Object.keys(raw)) {
    const given = raw[id];
    const question = questions.get(id);
    if (question === undefined) {
      const heir = retired[id];
      const sided = ['front', 'rear'].map((end) => `${id}@${end}`).filter((s) => questions.has(s));
      const remedy = (): string =>
        heir !== undefined
          ? `It was retired; use ${heir}.`
          : sided.length > 0
            ? `Say which end: ${[...sided, ...(questions.has(`${id}@${EITHER}`) ? [`${id}@${EITHER} where that is not known`] : [])].join(' or ')}.`
            : didYouMean(id, questions.keys()) || 'See earshot rules show for the ids.';
      wrong(at, `There is no question ${shorten(id)}.`, remedy, id);
      continue;
    }
    let answer: unknown = given;
    let sure: unknown = 'sure';
    if (isMap(given)) {
      answer = given['answer'];
      sure = given['sure'] ?? 'sure';
      for (const key of Object.keys(given)) {
        if (key !== 'answer' && key !== 'sure')
          wrong(
            [...at, id],
            `An answer has no key ${shorten(key)}.`,
            'Write {answer: ..., sure: sure | fairly | guess}.',
            key,
          );
      }
    }
    const ids = (): string[] => [...question.answers.map((a) => a.id), CANNOT_TELL, NOT_NOW];
    let also: readonly string[] = [];
    if (Array.isArray(answer)) {
      const several = readSeveral(answer, question, ids);
      if ('message' in several) {
        wrong([...at, id], several.message, several.remedy);
        continue;
      }
      [answer, ...also] = several;
    }
    if (typeof answer !== 'string') {
      wrong(
        [...at, id],
        `The answer to ${id} must be a word, found ${show(answer)}.`,
        `Answers: ${ids().join(', ')}.`,
      );
      continue;
    }
    const known =
      answer === CANNOT_TELL || answer === NOT_NOW || question.answers.some((a) => a.id === answer);
    if (!known) {
      wrong(
        [...at, id],
        `${id} has no answer ${shorten(answer)}.`,
        () => didYouMean(answer, ids()) || `Answers: ${ids().join(', ')}.`,
      );
      continue;
    }
    if (typeof sure !== 'string' || !SURE.includes(sure)) {
      wrong(
        [...at, id, 'sure'],
        `sure must be sure, fairly or guess, found ${show(sure)}.`,
        didYouMean(String(sure), SURE) || 'Use one of the three words.',
      );
      continue;
    }
    out.push({ question: id, answer, ...(also.length === 0 ? {} : { also }), sure: sure as Sure });
  }
  return out;
}
