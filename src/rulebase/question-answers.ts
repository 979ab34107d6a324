/** What is wrong with the answers of a question by themselves: too few of them, or named elsewhere and none of them. */
import { didYouMean } from '../form/suggest.ts';
import { CANNOT_TELL, NOT_NOW } from './compiled.ts';
import type { QuestionEntry } from './question-links.ts';

/** Keys of a question that hold its answers: as a list, or each as the key of a map. */
const OF_ANSWERS = [
  'points-to',
  'usually',
  'dangerous',
  'harmless-when',
  'by-mass',
  'cautions',
  'never-normal',
  'asks-tried',
  'told-change',
  'tells',
  'implies',
] as const;

export function reportAnswers(e: QuestionEntry): void {
  const q = e.data;
  const ids = Object.keys(q.answers);
  const others = `Answers: ${ids.join(', ')}.`;
  for (const id of ids.filter((one) => one === CANNOT_TELL || one === NOT_NOW))
    e.wrong(
      ['answers'],
      'shape',
      `${id} is an answer of every question by itself, and never a sign.`,
      'Give this answer another id.',
      id,
    );
  if (ids.length < 2)
    e.wrong(
      ['answers'],
      'shape',
      `${e.id} has fewer than two answers.`,
      'A question needs a default and at least one sign.',
    );
  if (!ids.includes(q.default))
    e.wrong(
      ['default'],
      'unknown-id',
      `The default ${q.default} is not an answer.`,
      didYouMean(q.default, ids) || others,
    );
  const several = q['when-several'];
  if (several !== 'cancel' && several !== 'any' && !ids.includes(several))
    e.wrong(
      ['when-several'],
      'bad-several',
      `${several} is neither cancel, any nor an answer.`,
      `Use cancel, any, or one of ${ids.join(', ')}.`,
    );
  if (q.several === true && (several !== 'any' || q.safety === true))
    e.wrong(
      ['several'],
      'bad-several',
      'Several answers are taken only where any sign noticed may be said, and never of safety.',
      q.safety === true ? 'Give them an answer of their own.' : 'Write when-several: any.',
    );
  if (q['points-to'][q.default] !== undefined)
    e.wrong(
      ['points-to'],
      'default-points',
      `${q.default} is the default of ${e.id}, so it cannot point to a cause.`,
      'Move the causes to a sign, or choose another default.',
      q.default,
    );
  const check = (answer: string, path: readonly string[], what: string = path[0]!): void => {
    if (ids.includes(answer)) return;
    const remedy = didYouMean(answer, ids) || others;
    e.wrong(
      path,
      'unknown-id',
      `${what} names ${answer}, which is not an answer of ${e.id}.`,
      remedy,
      answer,
    );
  };
  for (const key of OF_ANSWERS) {
    const said = q[key] ?? [];
    for (const answer of Array.isArray(said) ? said : Object.keys(said)) check(answer, [key]);
  }
  if (q.physics?.answer !== undefined) check(q.physics.answer, ['physics', 'answer'], 'physics');
}
