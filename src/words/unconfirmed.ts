/** Readings of free text as lines of a report: said, never counted. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import { onlyTheEnd } from './ends.ts';
import type { Reading } from './matcher.ts';

/** One line of a result's `unconfirmed`; question and answer are null when the words alone decide nothing. */
export interface UnconfirmedLine {
  readonly phrase: string;
  readonly question: string | null;
  readonly answer: string | null;
  readonly note: string;
}

/** Questions told apart with; the words command lists them all. */
const MOST_ASKED = 3;

/**
 * One line for each answer a reading could mean; one line for all of it when the words mean opposite things or
 * when a denial leaves nothing to offer.
 */
export function unconfirmedOf(
  readings: readonly Reading[],
  rules: Pick<CompiledRules, 'questions'>,
): UnconfirmedLine[] {
  const questions = new Map(rules.questions.map((q) => [q.id, q]));
  return readings.flatMap((r): UnconfirmedLine[] => {
    const nothing = { phrase: r.text, question: null, answer: null };
    if (r.negated && r.candidates.length === 0) return [{ ...nothing, note: 'was denied; nothing to count' }];
    const asked = (id: string): string => `"${questions.get(id)?.ask ?? id}"`;
    if (r.ambiguous) {
      const more = r.separates.length - MOST_ASKED;
      const ask = r.separates.slice(0, MOST_ASKED).map(asked).join(' ');
      return [
        {
          ...nothing,
          note: `can mean different things: ${r.means.join('; or ')}.${ask === '' ? '' : ` Ask: ${ask}${more > 0 ? ` and ${more} more` : ''}`}`,
        },
      ];
    }
    // Which end it was is no news to wait for by itself.
    return r.candidates
      .filter((c) => !onlyTheEnd(c))
      .map(({ question, answer }) => {
        const rule = questions.get(question);
        const text = rule?.says?.[answer] ?? rule?.answers.find((a) => a.id === answer)?.text ?? answer;
        return {
          phrase: r.text,
          question,
          answer,
          note: `${r.negated ? 'was denied and ' : ''}could mean "${text}". Ask: ${asked(question)}`,
        };
      });
  });
}
