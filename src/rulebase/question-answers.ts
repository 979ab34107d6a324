/** What is wrong with the answers of a question by themselves: too few, a default or a rule for several that is none of them. */
import { didYouMean } from '../form/suggest.ts';
import { CANNOT_TELL, NOT_NOW } from './compiled.ts';
import type { Report } from './entries.ts';
import type { QuestionEntry } from './question-links.ts';

export function reportAnswers(e: QuestionEntry, report: Report): void {
  const q = e.data;
  const ids = Object.keys(q.answers);
  for (const id of ids.filter((one) => one === CANNOT_TELL || one === NOT_NOW))
    report(
      e.place(['answers'], id),
      'shape',
      `${id} is an answer of every question by itself, and never a sign.`,
      'Give this answer another id.',
    );
  if (ids.length < 2)
    report(
      e.place(['answers']),
      'shape',
      `${e.id} has fewer than two answers.`,
      'A question needs a default and at least one sign.',
    );
  if (!ids.includes(q.default)) {
    report(
      e.place(['default']),
      'unknown-id',
      `The default ${q.default} is not an answer.`,
      didYouMean(q.default, ids) || `Answers: ${ids.join(', ')}.`,
    );
  }
  const several = q['when-several'];
  if (several !== 'cancel' && several !== 'any' && !ids.includes(several)) {
    report(
      e.place(['when-several']),
      'bad-several',
      `${several} is neither cancel, any nor an answer.`,
      `Use cancel, any, or one of ${ids.join(', ')}.`,
    );
  }
  if (q.several === true && (several !== 'any' || q.safety === true)) {
    report(
      e.place(['several']),
      'bad-several',
      'Several answers are taken only where any sign noticed may be said, and never of safety.',
      q.safety === true ? 'Give them an answer of their own.' : 'Write when-several: any.',
    );
  }
}
