/** A step that somebody takes by himself, against how far the trade goes in one go. */
import { aspect, type Change } from '../../bike/change.ts';
import { rowFor } from '../../bike/settings.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';

type Rules = Pick<CompiledRules, 'adjustments'> & {
  readonly numbers: {
    readonly advice: Pick<CompiledRules['numbers']['advice'], 'by-the-sheet' | 'air-at-once'>;
  };
};

/**
 * The most that a knob or an air spring is taken at once, in the unit of the step: part of its clicks, or of the pressure in it.
 * @param from where it stood before
 * @returns undefined where the step goes no further, and where the rules bound nothing: what a gauge or a stop bounds
 */
export function mostAtOnce(
  step: Change & { readonly from: number },
  sheet: BikeSheet,
  { adjustments, numbers: { advice } }: Rules,
): number | undefined {
  const kind = adjustments.find(
    ({ change }) => change?.setting === step.setting && aspect(change.unit) === aspect(step.unit),
  )?.kind;
  const most =
    kind === 'click' && step.unit === 'clicks'
      ? clicksAtOnce(rowFor(step, sheet.settings)?.shown(sheet)?.of, advice['by-the-sheet'])
      : kind === 'pressure'
        ? advice['air-at-once'] * step.from
        : undefined;
  return most !== undefined && Math.abs(step.by) > most + 1e-6 ? most : undefined;
}

/** @param of clicks from stop to stop, where they were counted */
function clicksAtOnce(
  of: number | undefined,
  trade: CompiledRules['numbers']['advice']['by-the-sheet'],
): number | undefined {
  if (trade === undefined) return undefined;
  return of === undefined ? trade.uncounted : Math.max(trade.beyond, Math.floor(trade.range * of));
}
