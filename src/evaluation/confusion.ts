/** Which cause is named first for which: of riders with one cause off, or nothing. */
import type { Model } from '../diagnosis/model.ts';
import type { Interviewed } from './simulate.ts';

/** What is named when the interview ends with "nothing is off". */
export const NOTHING = 'nothing';

export interface ConfusionRow {
  /** what was really off: a cause, or nothing */
  readonly truth: string;
  readonly riders: number;
  /** what was named first, the most often named first; counts add up to `riders` */
  readonly said: readonly { readonly cause: string; readonly count: number }[];
}

/** Rows in the order of the rules, nothing last; a cause that no rider had has no row. */
export function confusion(model: Model, runs: readonly Interviewed[]): ConfusionRow[] {
  const { causes } = model.rules;
  const name = (c: number | undefined): string => (c === undefined ? NOTHING : causes[c]!.id);
  const cells = new Map<string, Map<string, number>>();
  for (const { truth, outcome } of runs) {
    if (truth.length > 1) continue;
    const said = outcome.advice.verdict === 'leave' ? NOTHING : name(outcome.ranked[0]);
    const row = cells.get(name(truth[0])) ?? new Map<string, number>();
    cells.set(name(truth[0]), row);
    row.set(said, (row.get(said) ?? 0) + 1);
  }
  return [...causes.keys(), undefined].flatMap((c) => {
    const row = cells.get(name(c));
    if (row === undefined) return [];
    const said = [...row]
      .map(([cause, count]) => ({ cause, count }))
      .sort((a, b) => b.count - a.count || (a.cause < b.cause ? -1 : 1));
    return [{ truth: name(c), riders: said.reduce((n, s) => n + s.count, 0), said }];
  });
}
