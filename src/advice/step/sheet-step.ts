/** How far a step goes where the sheet itself says how far something is off. */
import type { Shown } from '../../bike/row.ts';
import { rowFor } from '../../bike/settings.ts';
import { ENDS, type BikeSheet } from '../../bike/sheet.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import { reasonIn, type Reasons } from '../../rulebase/reasons.ts';
import type { Step } from '../feasibility.ts';

type ByTheSheet = NonNullable<CompiledRules['numbers']['advice']['by-the-sheet']>;

/**
 * Of a knob that stands far from the maker's figure, or near a stop where there is none, a part of the way there or to the middle,
 * never across it; of a tyre with a target all
 * the way, because a gauge says when it is there. The step of the rule where the sheet asks for nothing that way.
 */
export function stepByTheSheet(
  step: Step,
  { kind }: Pick<Adjustment, 'kind'>,
  sheet: BikeSheet,
  by: ByTheSheet | undefined,
): Step {
  if (by === undefined) return step;
  const shown = rowFor(step, sheet.settings)?.shown(sheet);
  if (shown?.now === undefined || shown.unit !== step.unit) return step;
  if (kind === 'tyre') return toTarget(step, shown);
  return kind === 'click' ? partOfTheWay(step, shown, by) : step;
}

/**
 * How many clicks a step goes where so many are felt as one: no more than a part of what is left to the stop that way, unless
 * that is fewer than the rule's. A stop is come to by small steps.
 */
export function clicksTo(
  { setting, by, unit }: Step,
  felt: number | undefined,
  sheet: BikeSheet,
  trade: ByTheSheet | undefined,
): number | undefined {
  if (felt === undefined || trade === undefined || unit !== 'clicks') return felt;
  const { now, of } = rowFor({ setting, unit }, sheet.settings)?.shown(sheet) ?? {};
  const left = by < 0 ? now : now === undefined || of === undefined ? undefined : of - now;
  if (left === undefined) return felt;
  return Math.min(felt, Math.max(Math.abs(by), Math.floor(trade.share * left)));
}

function toTarget(step: Step, { now, wanted }: Shown): Step {
  const off = ahead(step, now!, wanted);
  return off === undefined ? step : { ...step, by: Number((Math.sign(step.by) * off).toFixed(3)) };
}

function partOfTheWay(step: Step, shown: Shown, by: ByTheSheet): Step {
  const { now, maker, of } = shown;
  const { beyond, share, range } = by;
  const off = ahead(step, now!, maker ?? middleAhead(step, shown, by));
  if (off === undefined || off <= beyond) return step;
  // Less than the rule's step cannot be felt, and a ride on it would tell nothing.
  const felt = Math.abs(step.by);
  const part = Math.min(Math.round(share * off), of === undefined ? off : Math.floor(range * of));
  return { ...step, by: Math.sign(step.by) * Math.min(off, Math.max(felt, part)) };
}

/** The middle of a knob's clicks, where it stands near the other stop and the maker gives no figure; undefined elsewhere. */
export function middleAhead(
  step: Pick<Step, 'by' | 'unit'>,
  { now, of, maker }: Pick<Shown, 'now' | 'of' | 'maker'>,
  by: ByTheSheet | undefined,
): number | undefined {
  if (by === undefined || step.unit !== 'clicks') return undefined;
  if (now === undefined || of === undefined || maker !== undefined) return undefined;
  const fromStop = step.by < 0 ? of - now : now;
  return fromStop > by.edge * of ? undefined : Math.round(of / 2);
}

/** How far a figure lies ahead of a step that way; undefined where it does not. */
export function ahead({ by }: Pick<Step, 'by'>, now: number, figure: number | undefined): number | undefined {
  if (figure === undefined) return undefined;
  const off = (figure - now) * Math.sign(by);
  return off > 1e-9 ? off : undefined;
}

/** What is to be done to the other tyre in the same go, where that one is off by a step and more the same way. */
export function otherTyre(
  rule: Step,
  { kind }: Pick<Adjustment, 'kind'>,
  sheet: BikeSheet,
  reasons?: Reasons,
): string | undefined {
  const own = ENDS.find((end) => rule.setting.startsWith(`${end}.`));
  const end = ENDS.find((one) => one !== own);
  if (kind !== 'tyre' || own === undefined || end === undefined) return undefined;
  const setting = `${end}${rule.setting.slice(own.length)}`;
  const shown = rowFor({ setting, unit: rule.unit }, sheet.settings)?.shown(sheet);
  if (shown?.now === undefined || shown.unit !== rule.unit) return undefined;
  const off = ahead(rule, shown.now, shown.wanted);
  if (off === undefined || off < Math.abs(rule.by)) return undefined;
  const [wanted, now] = [shown.wanted!, shown.now].map((value) => `${value} ${shown.unit}`);
  return reasonIn(reasons, 'other-tyre', { end, wanted: wanted!, now: now! });
}
