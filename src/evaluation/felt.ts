/** Whether "feels better" and "feels worse" hold: what was said of the first change, against what is really off. */
import { chanceFelt } from '../advice/help-harm.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Model } from '../diagnosis/model.ts';
import { outcomeProbability } from '../diagnosis/results.ts';
import type { Interviewed } from './simulate.ts';

/** Of one first change: what was said, and how likely the report is on this bike, by the pack's own rows of reports. */
export interface Felt {
  readonly said: number;
  readonly real: number;
}

export interface FeltBin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** means over the bin */
  readonly said: number;
  readonly real: number;
  /** standard error of `real` − `said` */
  readonly error: number;
}

/** One change a rider, none where nothing is changed first. The chance itself is compared, not a drawn report of it. */
export function feltOf(
  model: Model,
  bench: PreparedBike,
  runs: readonly Interviewed[],
  report: 'better' | 'worse',
): Felt[] {
  return runs.flatMap(({ truth, outcome: { advice, averaged, none } }) => {
    const { verdict, first } = advice;
    if (verdict !== 'change' || first === undefined || model.rules.adjustments[first]!.kind === 'measure')
      return [];
    const said = chanceFelt(model, averaged(), none, { prospect: bench.prospect(first), report });
    return [{ said, real: outcomeProbability(model, bench.effect(first), truth, report) }];
  });
}

/** In steps of `width` of what was said. */
export function feltTable(felt: readonly Felt[], width = 0.1): FeltBin[] {
  const bins = Array.from({ length: Math.round(1 / width) }, (): Felt[] => []);
  for (const f of felt) bins[Math.min(bins.length - 1, Math.floor(f.said / width))]!.push(f);
  return bins.flatMap((list, i) =>
    list.length === 0 ? [] : [{ from: i * width, to: (i + 1) * width, ...summary(list) }],
  );
}

/** Of all together. */
export function summary(list: readonly Felt[]): Omit<FeltBin, 'from' | 'to'> {
  const count = list.length;
  const mean = (of: (f: Felt) => number): number => list.reduce((s, f) => s + of(f), 0) / count;
  const over = mean((f) => f.real - f.said);
  const variance = mean((f) => (f.real - f.said - over) ** 2);
  return { count, said: mean((f) => f.said), real: mean((f) => f.real), error: Math.sqrt(variance / count) };
}
