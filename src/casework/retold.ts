/**
 * What an earlier round said that a later one says again of the same bike. While nothing was changed for good in between,
 * a second "it springs past" is the same fact told twice, and counts once: as it was told last.
 */
import { CANNOT_TELL, NOT_NOW } from '../rulebase/compiled.ts';
import type { Case, CaseAnswer, Round } from './case.ts';

/**
 * @param i which of the earlier rounds
 * @returns its answers without those that a later round gives again while the bike stood as it did
 */
export function toldOnce(
  kase: Pick<Case, 'earlier' | 'answers' | 'tried'>,
  i: number,
): readonly CaseAnswer[] {
  const rounds: readonly Pick<Round, 'answers' | 'tried'>[] = [...kase.earlier, kase];
  const again = new Set<string>();
  for (let j = i + 1; j < rounds.length; j++) {
    // What was kept after the round before, or is still on the bike since, makes another bike of it.
    if (kase.earlier[j - 1]!.results.some(({ kept }) => kept)) break;
    if (rounds[j]!.tried?.some(({ putBack }) => putBack === 'no') === true) break;
    for (const { question, answer } of rounds[j]!.answers)
      if (answer !== CANNOT_TELL && answer !== NOT_NOW) again.add(question);
  }
  const { answers } = kase.earlier[i]!;
  return again.size === 0 ? answers : answers.filter(({ question }) => !again.has(question));
}
