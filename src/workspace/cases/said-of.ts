/** What the free text of a case could mean: read, and held against what was answered; never counted. */
import type { Case } from '../../casework/case.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Result } from '../../report/result/result.ts';
import type { CompiledWords } from '../../words/compiled-words.ts';
import type { Matcher, Reading } from '../../words/matcher.ts';
import type { Wished } from '../../words/tried/tried.ts';
import { changesSaid } from '../changes-said.ts';

export interface Said {
  /** what nobody confirmed, line by line */
  readonly unconfirmed: Result['unconfirmed'];
  readonly readings: readonly Reading[];
  readonly wishes: readonly Wished[];
}

/** @param words the phrases of the rules, asked for only where a case has a text */
export function saidOf(model: Model, words: () => Promise<CompiledWords>): (kase: Case) => Promise<Said> {
  const { rules } = model;
  let matching: Promise<Matcher> | undefined;
  const matcher = (): Promise<Matcher> =>
    (matching ??= import('../../words/matcher.ts').then(async ({ buildMatcher }) =>
      buildMatcher(rules, await words()),
    ));
  const changes = changesSaid(rules, words);
  return async (kase) => {
    if (kase.said === undefined) return { unconfirmed: [], readings: [], wishes: [] };
    const [{ match }, { besideThese }, { meantOf, openReadings }, { unconfirmedOf }] = await Promise.all([
      matcher(),
      import('../../words/hearing.ts'),
      import('../../casework/said/open-readings.ts'),
      import('../../casework/said/unconfirmed.ts'),
    ]);
    const wishes = await changes.wishes(kase.said);
    // What was told as tried is no sign besides.
    const tried = (kase.tried ?? []).length === 0 ? [] : await changes.tried(kase.said);
    const readings = meantOf(kase, besideThese(match(kase.said), [...tried, ...wishes]));
    const answered = new Map(kase.answers.map((a) => [a.question, a.answer]));
    return {
      unconfirmed: unconfirmedOf(openReadings(model, kase, readings), rules, answered),
      readings,
      wishes,
    };
  };
}
