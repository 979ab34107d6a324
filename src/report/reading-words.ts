/** What an answer says, as one sentence to be confirmed. */
import type { Question } from '../rulebase/compiled.ts';
import { capital } from '../form/text.ts';
import type { Audience } from './evidence-words.ts';

/** `The rear kicks up off a jump`; where the rules have no sentence, the answer with its question behind it. */
export function readingWords(
  { says, ask, plain, answers }: Pick<Question, 'says' | 'ask' | 'plain' | 'answers'>,
  answer: string,
  audience: Audience,
): string {
  const sentence = says?.[answer];
  if (sentence !== undefined) return capital(sentence);
  const text = answers.find((a) => a.id === answer)?.text ?? answer;
  return `${capital(text)} (${audience === 'rider' ? plain : ask})`;
}
