/** A spring that was changed and still is: a step back goes no further at once than where it stood before that. */
import { aspect } from '../../bike/change.ts';
import { dimensionOf, siPer, type Unit } from '../../bike/units.ts';
import type { Step } from '../../advice/feasibility.ts';
import type { ChangeEffect } from '../../diagnosis/results.ts';
import type { TriedEffect } from './weigh-tried.ts';

export interface CutStep {
  readonly step: Step | undefined;
  /** how much of the step is left, 0..1 */
  readonly kept: number;
  readonly note?: string;
}

/** @param tried of this round, in the order in which it was told */
export function notPastTried(step: Step | undefined, tried: readonly TriedEffect[]): CutStep {
  const whole = { step, kept: 1 };
  if (step === undefined || dimensionOf(step.unit) !== 'pressure') return whole;
  const si = siPer(step.unit as Unit);
  // Of what was told in parts one change is meant, so the largest and not the sum.
  const most = Math.max(
    0,
    ...tried.flatMap(({ tried: { putBack, by }, changes }) =>
      putBack !== 'no' || by === undefined
        ? []
        : changes.flatMap((one) =>
            one.setting === step.setting &&
            aspect(one.unit) === aspect(step.unit) &&
            Math.sign(one.by) !== Math.sign(step.by)
              ? [(Math.abs(one.by) * siPer(one.unit as Unit)) / si]
              : [],
          ),
    ),
  );
  if (most === 0 || most >= Math.abs(step.by) - 1e-6) return whole;
  const by = Number((Math.sign(step.by) * most).toFixed(3));
  return {
    step: {
      ...step,
      by,
      ...(step.from === undefined ? {} : { to: Number((step.from + by).toFixed(3)) }),
    },
    kept: most / Math.abs(step.by),
    note: 'no further at once than where it stood before it was changed',
  };
}

/** What a part of a step does. */
export function effectInPart({ cures, brings, lasts }: ChangeEffect, part: number): ChangeEffect {
  const some = { cures: cures.map((x) => x * part), brings: brings.map((x) => x * part) };
  return lasts === undefined ? some : { ...some, lasts };
}
