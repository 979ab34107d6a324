/**
 * What an earlier round said that a later one says again of the same bike. While nothing was changed for good in between,
 * a second "it springs past" is the same fact told twice, and counts once: as it was told last.
 */
import type { Evidence } from '../diagnosis/belief.ts';
import type { Known } from '../diagnosis/gates.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Case, CaseResult, Round } from './case.ts';
import { hear } from './evidence.ts';
import { isToldAgain } from './tried/told-once.ts';

/** The rounds of a case, the last one too. */
export function roundsOfCase(kase: Pick<Case, 'earlier'> & Round): readonly Round[] {
  return [...kase.earlier, kase];
}

/**
 * @param rounds oldest first
 * @returns of each round what counts of it after all of them. Whole rounds are heard, so that what an answer says of
 * another, or of an end, is heard as it was told.
 */
export function heardOnce(
  model: Model,
  fact: Known['bike'],
  rounds: readonly Round[],
): readonly (readonly Evidence[])[] {
  const { questions } = model.rules;
  const out: (readonly Evidence[])[] = [];
  const again = new Set<number>();
  // One whose end was not known speaks of both ends, and a later answer of either says it again.
  const speaksOf = ({ question }: Evidence): readonly number[] => questions[question]!.either ?? [question];
  for (let i = rounds.length - 1; i >= 0; i--) {
    const { evidence } = hear(model, rounds[i]!.answers, fact);
    if (i + 1 < rounds.length && isOtherBike(rounds, i + 1)) again.clear();
    out.unshift(again.size === 0 ? evidence : evidence.filter((e) => !speaksOf(e).some((q) => again.has(q))));
    for (const one of evidence) for (const q of speaksOf(one)) again.add(q);
  }
  return out;
}

/** The first of the rounds that tell of the bike as the last one does, by its place; 0 where there are none. */
export function standsFrom(rounds: readonly Round[]): number {
  let from = rounds.length - 1;
  while (from > 0 && !isOtherBike(rounds, from)) from--;
  return Math.max(0, from);
}

/** What was ridden on the bike as it stands after the last round, oldest first. */
export function riddenAsItStands(rounds: readonly Round[]): readonly CaseResult[] {
  const results = rounds.slice(standsFrom(rounds)).flatMap((round) => round.results);
  return results
    .slice(results.findLastIndex(({ kept }) => kept) + 1)
    .filter(({ changedAfter }) => changedAfter !== true);
}

/** What was kept after the round before, or was changed or tried and is still on since, makes another bike of it. */
function isOtherBike(rounds: readonly Round[], at: number): boolean {
  const { changed, tried = [] } = rounds[at]!;
  const before = rounds.slice(0, at).flatMap((round) => round.tried ?? []);
  return (
    changed === true ||
    rounds[at - 1]!.results.some(({ kept }) => kept) ||
    // What was told of before is told again, and not tried again.
    tried.some((one) => one.putBack === 'no' && !before.some((other) => isToldAgain(other, one)))
  );
}
