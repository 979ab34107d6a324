/** What of a rider's words was offered and declined, as an interview keeps it. */
import type { CaseAnswer } from '../../../casework/case.ts';
import { sameEnd } from '../../../words/clash.ts';
import type { Candidate } from '../../../words/matcher.ts';

/** Question → answers that were declined, where any were and none of them was confirmed of other words. */
export function notMeantOf(
  declined: readonly Pick<Candidate, 'question' | 'answer'>[],
  confirmed: readonly CaseAnswer[],
): Record<string, string[]> | undefined {
  const out: Record<string, string[]> = {};
  for (const c of declined) {
    const { question, answer } = c;
    if (confirmed.some((a) => a.answer === answer && sameEnd(a.question, question))) continue;
    if (out[question]?.includes(answer) !== true) (out[question] ??= []).push(answer);
  }
  return Object.keys(out).length === 0 ? undefined : out;
}
