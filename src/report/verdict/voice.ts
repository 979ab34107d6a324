/** Whose words a report uses, and what is named in them: causes, and what is to be found out. */
import type { Audience, WordedRules } from '../evidence-words.ts';
import type { ShownCause } from '../result/ideas.ts';
import type { Result } from '../result/result.ts';
import type { Style } from '../style.ts';

export interface Words {
  readonly style: Style;
  readonly rules: WordedRules;
  readonly audience: Audience;
}

/** Whose words are used, whatever they are printed on. */
export type Voice = Pick<Words, 'rules' | 'audience'>;

export const NO_WORDS: WordedRules = { questions: [], settings: [], causes: [], adjustments: [] };

export function causeWords(
  { id, name }: { readonly id: string; readonly name: string },
  { rules, audience }: Voice,
): string {
  return audience === 'rider' ? (rules.causes.find((c) => c.id === id)?.plain ?? name) : name;
}

/** The line of a list: a cause, or the two circuits of one damper. */
export function ideaWords({ cause, name }: ShownCause, words: Voice): string {
  if (name === cause.name) return causeWords(cause, words);
  const { rules, audience } = words;
  return audience === 'rider' ? (rules.causes.find((c) => c.id === cause.id)?.pair?.plain ?? name) : name;
}

/** What is to be found out; for a rider in the rider's words. */
export function taskWords(
  { question, text }: Result['assignments'][number],
  { rules, audience }: Voice,
): string {
  const asked = rules.questions.find((q) => q.id === question);
  return audience === 'rider' && asked !== undefined && text.startsWith(asked.ask)
    ? `${asked.plain}${text.slice(asked.ask.length)}`
    : text;
}
