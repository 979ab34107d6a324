/** What a change did somewhere only: the places that a rider names, and the topics that each speaks of. */
import { withoutEnd, type CompiledRules } from '../../rulebase/compiled.ts';
import type { Opening } from '../../rulebase/compiled-phrases.ts';

type Rules = Pick<CompiledRules, 'openings' | 'questions'>;

/** The topics of an opening that are felt on a ride, by their names; what a gauge reads tells of no result. */
export function feltTopics({ questions }: Pick<Rules, 'questions'>, { topics }: Opening): string[] {
  return topics.filter((topic) =>
    questions.some((q) => q.topic === topic && q.how !== 'stand' && q.circumstance !== true),
  );
}

/** The openings that a change can have been felt at. */
export function feltOpenings(rules: Rules): Opening[] {
  return rules.openings.filter((one) => feltTopics(rules, one).length > 0);
}

/**
 * What a report of a part speaks of, as the opening says it that shares most of it.
 * @param names ids of questions or topics
 * @returns undefined where no opening speaks of any of it
 */
export function feltWords(rules: Rules, names: readonly string[]): string | undefined {
  const wanted = new Set(
    rules.questions.flatMap(({ id, topic }) =>
      names.includes(topic) || names.includes(withoutEnd(id)) || names.includes(id) ? [topic] : [],
    ),
  );
  /** of the topics of either, the share that is of both */
  const shared = (opening: Opening): number => {
    const own = feltTopics(rules, opening);
    const both = own.filter((topic) => wanted.has(topic)).length;
    return both / (own.length + wanted.size - both);
  };
  const best = feltOpenings(rules).reduce<Opening | undefined>(
    (most, one) => (shared(one) > (most === undefined ? 0 : shared(most)) ? one : most),
    undefined,
  );
  return best?.say;
}
