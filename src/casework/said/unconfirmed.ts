/** Readings of free text as lines of a report: said, never counted. */
import { dangersOf, type Known } from '../../diagnosis/gates.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { endTeller } from '../../words/ends.ts';
import type { Reading } from '../../words/matcher.ts';

/** One line of a result's `unconfirmed`; question and answer are null when the words alone decide nothing. */
export interface UnconfirmedLine {
  readonly phrase: string;
  readonly question: string | null;
  readonly answer: string | null;
  readonly note: string;
  /** confirmed, it stops the ride: by itself, or beside what was answered or said */
  readonly danger?: true;
}

/** Questions told apart with; the words command lists them all. */
const MOST_ASKED = 3;

/**
 * One line for each answer a reading could mean; one line for all of it when the words mean opposite things or
 * when a denial leaves nothing to offer.
 * @param answered what was answered: beside it, a harmless phrase may be dangerous
 */
export function unconfirmedOf(
  readings: readonly Reading[],
  rules: Pick<CompiledRules, 'questions'>,
  answered: Known['answers'] = new Map(),
): UnconfirmedLine[] {
  const questions = new Map(rules.questions.map((q) => [q.id, q]));
  const onlyTheEnd = endTeller(rules.questions);
  const known = withSaid(answered, readings);
  return readings.flatMap((r): UnconfirmedLine[] => {
    const nothing = { phrase: r.text, question: null, answer: null };
    if (r.negated && r.candidates.length === 0)
      return [{ ...nothing, note: 'heard as a no; nothing to count' }];
    const asked = (id: string): string => `"${questions.get(id)?.ask ?? id}"`;
    if (r.ambiguous) {
      const more = r.separates.length - MOST_ASKED;
      const ask = r.separates.slice(0, MOST_ASKED).map(asked).join(' ');
      return [
        {
          ...nothing,
          note:
            ask === ''
              ? `can mean different things: ${r.means.join('; or ')}.`
              : `can mean different things. Ask: ${ask}${more > 0 ? ` and ${more} more` : ''}`,
        },
      ];
    }
    // Which end it was is no news to wait for by itself.
    return r.candidates
      .filter((c) => !onlyTheEnd(c, r.candidates))
      .map(({ question, answer }): UnconfirmedLine => {
        const rule = questions.get(question);
        const text = rule?.says?.[answer] ?? rule?.answers.find((a) => a.id === answer)?.text ?? answer;
        const danger =
          rule !== undefined && dangersOf(rule, [answer], known, { answers: answered }).length > 0;
        const look = danger ? undefined : lookFor(rules, question, answer);
        if (look !== undefined && !answered.has(look.id))
          return {
            phrase: r.text,
            question: look.id,
            answer: null,
            danger: true,
            note: `calls for a look before riding. Ask: ${asked(look.id)}`,
          };
        return {
          phrase: r.text,
          question,
          answer,
          ...(danger ? { danger: true as const } : {}),
          note: `${r.negated ? 'heard as a no, ' : ''}could mean "${text}". Ask: ${asked(question)}`,
        };
      });
  });
}

/** The safety question that is asked after this answer: what it looks for may be there before anybody confirmed the words. */
function lookFor(
  { questions }: Pick<CompiledRules, 'questions'>,
  id: string,
  answer: string,
): CompiledRules['questions'][number] | undefined {
  return questions.find(
    ({ safety, gates }) =>
      safety && gates.some((g) => g.on === 'question' && g.id === id && g.values.includes(answer)),
  );
}

/** What was answered, and of other questions what was said: one that was said in two ways was said both ways. */
function withSaid(answered: Known['answers'], readings: readonly Reading[]): Pick<Known, 'answers' | 'also'> {
  const answers = new Map(answered);
  const also = new Map<string, string[]>();
  for (const { ambiguous, candidates } of readings)
    for (const { question, answer } of ambiguous ? [] : candidates) {
      if (answered.has(question)) continue;
      if (answers.has(question)) also.set(question, [...(also.get(question) ?? []), answer]);
      else answers.set(question, answer);
    }
  return { answers, also };
}
