/** How good a run of interviews was: hits, wrong directions, length, mix-ups, calibration. */
import { statedOf } from '../diagnosis/none.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Interviewed } from './simulate.ts';

export interface Score {
  readonly riders: number;
  /** share whose first cause is really off, and with a real one among the first three; of those with something off */
  readonly top1: number;
  readonly top3: number;
  /** share whose first cause is the opposite of a real one */
  readonly wrongWay: number;
  /** share whose first adjustment cures something, spoils something; "leave it" does neither */
  readonly cures: number;
  readonly spoils: number;
  readonly median: number;
  readonly ninetieth: number;
  /** share of interviews of at most twelve questions */
  readonly within12: number;
  readonly mixUps: readonly { readonly truth: string; readonly said: string; readonly count: number }[];
  readonly calibration: Calibration;
}

export interface Calibration {
  /** mean stated probability of the first cause, minus how often it was off; points, positive = over-confident */
  readonly overstated: number;
  /** Brier score of the first cause's probability, one-class form, 0..1 (AMS Glossary) */
  readonly brier: number;
  /** mean −ln of the probability given to what was so, nats */
  readonly logLoss: number;
  readonly table: readonly {
    readonly from: number;
    readonly to: number;
    readonly count: number;
    readonly stated: number;
    readonly right: number;
  }[];
}

export function score(model: Model, runs: readonly Interviewed[]): Score {
  const { causes } = model.rules;
  const off = runs.filter((r) => r.truth.length > 0);
  const first = (r: Interviewed): number => r.outcome.ranked[0]!;
  const asked = runs.map((r) => r.asked).sort((a, b) => a - b);
  const pairs = new Map<string, number>();
  for (const r of off) {
    if (r.truth.length !== 1 || r.truth.includes(first(r))) continue;
    const key = `${causes[r.truth[0]!]!.id} ${causes[first(r)]!.id}`;
    pairs.set(key, (pairs.get(key) ?? 0) + 1);
  }
  const opposite = (r: Interviewed): boolean =>
    r.truth.some((t) => t !== first(r) && causes[t]!.setting === causes[first(r)]!.setting);
  return {
    riders: runs.length,
    top1: share(off, (r) => r.truth.includes(first(r))),
    top3: share(off, (r) => r.outcome.ranked.slice(0, 3).some((c) => r.truth.includes(c))),
    wrongWay: share(off, opposite),
    cures: share(off, (r) => doesFirst(model, r).cures),
    spoils: share(runs, (r) => doesFirst(model, r).spoils),
    median: quantile(asked, 0.5),
    ninetieth: quantile(asked, 0.9),
    within12: share(runs, (r) => r.asked <= 12),
    mixUps: [...pairs]
      .map(([key, count]) => ({ truth: key.split(' ')[0]!, said: key.split(' ')[1]!, count }))
      .sort((a, b) => b.count - a.count || (a.truth + a.said < b.truth + b.said ? -1 : 1)),
    calibration: calibrate(
      runs.map((r) => ({
        stated: statedOf(r.outcome.belief, r.outcome.none, first(r)),
        right: r.truth.includes(first(r)),
      })),
    ),
  };
}

/** Whether the first adjustment turns the right thing the right way, or a right one wrong. */
function doesFirst(model: Model, r: Interviewed): { cures: boolean; spoils: boolean } {
  const index = r.outcome.advice.first;
  if (index === undefined) return { cures: false, spoils: false };
  const a = model.rules.adjustments[index]!;
  const { causes } = model.rules;
  const cures =
    a.fixes.some(([c]) => r.truth.includes(c)) ||
    a.moves.some((m) => r.truth.some((t) => causes[t]!.setting === m.setting && t !== m.toward));
  const spoils = a.moves.some((m) => r.truth.includes(m.toward));
  return { cures, spoils };
}

/** Calibration of statements; ten equal bins. Murphy (1973), from memory: bins by stated value. */
export function calibrate(
  statements: readonly { readonly stated: number; readonly right: boolean }[],
): Calibration {
  const mean = (list: readonly number[]): number =>
    list.length === 0 ? 0 : list.reduce((s, x) => s + x, 0) / list.length;
  const bins = Array.from({ length: 10 }, (_, i) =>
    statements.filter((s) => Math.min(9, Math.floor(s.stated * 10)) === i),
  );
  return {
    overstated: 100 * (mean(statements.map((s) => s.stated)) - mean(statements.map((s) => Number(s.right)))),
    brier: brier(statements),
    logLoss: logLoss(statements),
    table: bins.flatMap((b, i) =>
      b.length === 0
        ? []
        : [
            {
              from: i / 10,
              to: (i + 1) / 10,
              count: b.length,
              stated: mean(b.map((s) => s.stated)),
              right: mean(b.map((s) => Number(s.right))),
            },
          ],
    ),
  };
}

/** Mean squared error of stated probabilities, the one-class form (AMS Glossary): 0 best, 1 worst. */
export function brier(statements: readonly { readonly stated: number; readonly right: boolean }[]): number {
  return statements.reduce((s, x) => s + (x.stated - Number(x.right)) ** 2, 0) / statements.length;
}

/** Mean −ln of what was given to the outcome; a certain statement that was wrong costs as much as the smallest double allows. */
export function logLoss(statements: readonly { readonly stated: number; readonly right: boolean }[]): number {
  return (
    statements.reduce(
      (s, x) => s - Math.log(Math.max(Number.MIN_VALUE, x.right ? x.stated : 1 - x.stated)),
      0,
    ) / statements.length
  );
}

function share<T>(list: readonly T[], holds: (x: T) => boolean): number {
  return list.length === 0 ? 0 : list.filter(holds).length / list.length;
}

function quantile(sorted: readonly number[], q: number): number {
  return sorted.length === 0 ? 0 : sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))]!;
}

/** What is named when the interview ends with "nothing is off". */
const NOTHING = 'nothing';

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
