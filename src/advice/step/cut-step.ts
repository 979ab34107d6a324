/** A spring that was changed and still is: a step back goes no further at once than where it stood before that. */
import { amountIn, type Change } from '../../bike/change.ts';
import { dimensionOf } from '../../bike/units.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { ChangeEffect } from '../../diagnosis/results.ts';
import { reasonIn } from '../../rulebase/reasons.ts';
import type { Possibility, Step } from '../feasibility.ts';
import { prospectOf, type Prospect } from '../help-harm.ts';
import type { PreparedBike } from '../prepared-bike.ts';

/** What was tried before, as far as it bounds a step. */
export interface TriedChange {
  readonly tried: { readonly putBack: string; readonly by?: number };
  readonly changes: readonly Change[];
}

interface CutStep {
  readonly step: Step;
  /** how much of the step is left, 0..1 */
  readonly kept: number;
}

/**
 * The bike with such steps cut, and with what the part of them does. What a whole one is worth stays: a step cut short is
 * where it begins, and is repeated.
 * @param tried of this round, in the order in which it was told
 */
export function notPastTried(model: Model, bench: PreparedBike, tried: readonly TriedChange[]): PreparedBike {
  if (!tried.some((one) => one.tried.putBack === 'no')) return bench;
  const parts = new Map<number, { readonly effect: ChangeEffect; prospect?: Prospect }>();
  const possible = bench.possible.map((one, index): Possibility => {
    const cut = one.can && one.step !== undefined ? cutStep(one.step, tried) : undefined;
    if (cut === undefined || !one.can) return one;
    parts.set(index, { effect: effectInPart(bench.effect(index), cut.kept) });
    const note = [
      ...(one.note === undefined ? [] : [one.note]),
      reasonIn(model.rules.reasons, 'no-further'),
    ].join('; ');
    return { ...one, step: cut.step, note };
  });
  if (parts.size === 0) return bench;
  return {
    ...bench,
    possible,
    effect: (index) => parts.get(index)?.effect ?? bench.effect(index),
    prospect: (index) => {
      const part = parts.get(index);
      return part === undefined ? bench.prospect(index) : (part.prospect ??= prospectOf(model, part.effect));
    },
  };
}

/** @returns undefined where the whole step may be taken */
export function cutStep(step: Step, tried: readonly TriedChange[]): CutStep | undefined {
  if (dimensionOf(step.unit) !== 'pressure') return undefined;
  const most = turnedAgainst(step, tried);
  if (most === 0 || most >= Math.abs(step.by) - 1e-6) return undefined;
  const by = Number((Math.sign(step.by) * most).toFixed(3));
  return {
    step: {
      ...step,
      by,
      ...(step.from === undefined ? {} : { to: Number((step.from + by).toFixed(3)) }),
    },
    kept: most / Math.abs(step.by),
  };
}

/** How far the same thing was turned the other way and left there, in the unit of the step; 0 where nobody said so. */
export function turnedAgainst(step: Change, tried: readonly TriedChange[]): number {
  // Of what was told in parts one change is meant, so the largest and not the sum.
  return Math.max(
    0,
    ...tried.flatMap(({ tried: { putBack, by }, changes }) =>
      putBack !== 'no' || by === undefined
        ? []
        : changes.flatMap((one) =>
            one.setting === step.setting && Math.sign(one.by) !== Math.sign(step.by)
              ? [Math.abs(amountIn(one, step.unit) ?? 0)]
              : [],
          ),
    ),
  );
}

/** What a part of a step does. */
function effectInPart({ cures, brings, lasts }: ChangeEffect, part: number): ChangeEffect {
  const some = { cures: cures.map((x) => x * part), brings: brings.map((x) => x * part) };
  return lasts === undefined ? some : { ...some, lasts };
}
