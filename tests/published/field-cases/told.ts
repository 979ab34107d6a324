/**
 * What the word matcher offers for the told lines of the reports, against the answers that writers made of the whole
 * report: a line is read right when one of its offers is among them, an offer is wrong when they answered that very
 * question otherwise.
 */
import { withoutEnd, type CompiledRules } from '../../../src/rulebase/compiled.ts';
import { buildMatcher } from '../../../src/words/matcher.ts';
import { halfOf, listOf, type Half, type Report, type Written } from './score.ts';

export interface ToldLine {
  readonly id: string;
  readonly half: Half;
  readonly line: string;
  readonly right: boolean;
  readonly wrong: readonly string[];
  readonly offers: number;
}

export function readTold(
  rules: CompiledRules,
  reports: readonly Report[],
  writers: readonly (readonly Written[])[],
): ToldLine[] {
  const matcher = buildMatcher(rules);
  return reports.flatMap((report) => {
    /** question without its end → answers that any writer gave */
    const given = new Map<string, Set<string>>();
    for (const writer of writers)
      for (const [question, answer] of Object.entries(writer.find((w) => w.id === report.id)?.answers ?? {}))
        for (const one of listOf(answer))
          given.set(withoutEnd(question), (given.get(withoutEnd(question)) ?? new Set()).add(one.answer));
    return report.told.map((line) => {
      const offers = matcher.match(line).flatMap((r) => r.candidates);
      const judged = offers.map((o) => ({ ...o, known: given.get(withoutEnd(o.question)) }));
      return {
        id: report.id,
        half: halfOf(report),
        line,
        right: judged.some((o) => o.known?.has(o.answer)),
        wrong: judged
          .filter((o) => o.known !== undefined && !o.known.has(o.answer))
          .map((o) => `${o.question}: ${o.answer}`),
        offers: offers.length,
      };
    });
  });
}
