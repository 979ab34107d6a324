/** A result and its rules in the plain words that a rider alone gets, for every printed form alike. */
import { withoutStop } from '../form/text.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { WordedRules } from './evidence-words.ts';
import type { ResultAdjustment, Result } from './result/result.ts';

/** The rules with their plain texts in the place of the trade's. */
export function plainRules<Rules extends Pick<CompiledRules, 'questions' | 'settings' | 'causes'>>(
  rules: Rules,
): Rules {
  return {
    ...rules,
    questions: rules.questions.map((q) => ({ ...q, ask: q.plain })),
    causes: rules.causes.map((c) => ({ ...c, name: c.plain })),
  };
}

/**
 * The same result in plain words; ids, chances and numbers stay. What the model of the bike says in numbers is left out:
 * that is for a mechanic.
 */
export function plainResult(result: Result, rules: WordedRules): Result {
  const plain = new Map(rules.adjustments.map((a) => [a.id, withoutStop(a.plain)]));
  const said = <T extends { readonly id: string; readonly do: string }>(a: T): T => ({
    ...a,
    do: plain.get(a.id) ?? a.do,
  });
  const ask = rules.questions.find((q) => q.id === result.next?.question)?.plain;
  return {
    ...result,
    causes: result.causes.map((c) => {
      const rule = rules.causes.find(({ id }) => id === c.id);
      return {
        ...c,
        name: rule?.plain ?? c.name,
        ...(c.pair === undefined ? {} : { pair: { ...c.pair, name: rule?.pair?.plain ?? c.pair.name } }),
      };
    }),
    adjustments: result.adjustments.map((a): ResultAdjustment => ({
      ...a,
      do: withoutStop(a.plain),
      before: a.before === null ? null : { ...a.before, do: a.before.plain },
      knockOn: [],
    })),
    ...(result.leftIn === undefined ? {} : { leftIn: { ...result.leftIn, do: result.leftIn.plain } }),
    insteadOf: result.insteadOf === null ? null : said(result.insteadOf),
    blocked: result.blocked.map((b) => ({ ...said(b), waits: b.waits === null ? null : said(b.waits) })),
    refused: result.refused.map((b) => said(b)),
    next: result.next === null ? null : { ...result.next, ask: ask ?? result.next.ask },
    complaints: result.complaints.map((c) => ({
      ...c,
      instead: c.instead === null ? null : { ...c.instead, do: withoutStop(c.instead.plain) },
    })),
  };
}

/** Where what is turned usually is, as the rules say it; undefined where nothing is turned, or no rule says it. */
export function whereIs(
  { setting, unit }: Pick<ResultAdjustment, 'setting' | 'unit'>,
  { settings }: Pick<WordedRules, 'settings'>,
): string | undefined {
  if (unit !== 'clicks') return undefined;
  const own = settings.find(
    (s) => s.where !== undefined && `${s.end === undefined ? '' : `${s.end}.`}${s.adjuster}` === setting,
  );
  return own?.where === undefined ? undefined : `${withoutStop(own.where)}. The manual shows it.`;
}
