/** How far an adjustment can go on this bike: from where to where, or why it cannot be done. */
import { isCounted, type Change, type ChangeUnit } from '../bike/change.ts';
import type { NoDial } from '../bike/dial/dial.ts';
import { dialOf, rowFor } from '../bike/settings.ts';
import { sheetFact } from '../bike/facts.ts';
import { unsaidBike } from '../bike/form/said.ts';
import { ENDS, type BikeSheet } from '../bike/sheet.ts';
import { siPer, type Unit, inUnit, settable, writeQuantity } from '../bike/units.ts';
import { decapital, withoutStop } from '../form/text.ts';
import type { SpringCorrection } from '../physics/index.ts';
import { settingWords } from '../bike/setting-words.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';
import { reasonIn, type Reasons } from '../rulebase/reasons.ts';
import { ownSize } from './step/own-size.ts';
import { boundedBy, nearMost, within } from './step/room-left.ts';
import { clicksTo, ahead, otherTyre, stepByTheSheet } from './step/sheet-step.ts';
import { turnsTold } from './step/told-sag-step.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Physics } from './physics.ts';

/** Of the pack's numbers those that bound a step, what is near enough to a target, and why. */
type HowFar = Partial<
  Pick<CompiledRules['numbers']['advice'], 'by-the-sheet' | 'air-at-once' | 'near-most'>
> &
  Partial<Pick<CompiledRules['sheetCheck'], 'near'>> & { readonly reasons?: Reasons };

export interface Step {
  readonly setting: string;
  /** signed, in `unit`; + is more open, more pressure, more spacers, higher */
  readonly by: number;
  readonly unit: ChangeUnit;
  /** where it stands and where it goes, in the same unit; absent when nobody wrote it down */
  readonly from?: number;
  readonly to?: number;
  /** how far, as a share of what a gauge reads, where nobody told that: `by` is then the least that the rule turns */
  readonly share?: number;
  /** the names of its positions by number, for what stands at named ones */
  readonly names?: readonly string[];
}

/**
 * Whether it can be done. One that cannot is either unfit for this bike (a preload for an air spring) and not worth a
 * word, or has no knob or no room left, and then the next rung is named.
 */
export type Possibility =
  | {
      readonly can: true;
      readonly step?: Step;
      readonly note?: string;
      /** the note only asks to look whether the bike has it */
      readonly look?: true;
    }
  | { readonly can: false; readonly why: string; readonly unfit: boolean };

/**
 * @param sheet absent: everything may be there
 * @param clicks how many clicks one step is, when the physics of this bike knows better than the rule
 * @param said what was told of the bike, where there is no sheet
 * @param spring what brings the end's measured sag to the wanted one
 * @param far how far a step goes where the sheet says how far something is off; absent: as far as the rule's
 */
export function possible(
  adjustment: Adjustment,
  sheet: BikeSheet | undefined,
  clicks?: number,
  said: BikeSheet = unsaidBike([]),
  spring?: SpringCorrection,
  far?: HowFar,
): Possibility {
  if (sheet === undefined) return asSaid(adjustment, said, clicks, far?.reasons);
  const can = onSheet(adjustment, sheet, clicks, spring, far);
  const limit = can.can ? nearMost(adjustment, sheet, far, can.step?.to) : undefined;
  if (!can.can || limit === undefined) return can;
  return { ...can, note: can.note === undefined ? limit : `${can.note}; ${limit}` };
}

/** The same where there is a sheet, but for the most that an air spring may hold. */
function onSheet(
  adjustment: Adjustment,
  sheet: BikeSheet,
  clicks: number | undefined,
  spring: SpringCorrection | undefined,
  far: HowFar | undefined,
): Possibility {
  const { change } = adjustment;
  const unmet = missing(adjustment, sheet, far?.near);
  if (unmet !== undefined) return { can: false, why: unmet, unfit: true };
  if (change === undefined) return { can: true };
  const whole = spring === undefined ? undefined : corrected(change, spring, sheet, far);
  if (whole !== undefined && 'why' in whole) return { can: false, why: whole.why, unfit: false };
  const by = far?.['by-the-sheet'];
  const rule = inOwnUnits(inClicks(change, clicksTo(change, clicks, sheet, by)), sheet);
  const step = whole?.step ?? stepByTheSheet(rule, adjustment, sheet, by);
  const dial = dialOf(sheet, step);
  if ('message' in dial) {
    // A sheet that does not speak of it does not deny it: look first.
    if (dial.unsaid === true) return lookFirst(step, dial);
    if (dial.unfit === true) return { can: false, why: decapital(withoutStop(dial.message)), unfit: true };
    // A knob that is not there asks for the next rung; a number that is not written down asks for nothing.
    if (isCounted(step.unit)) return { can: false, why: decapital(withoutStop(dial.message)), unfit: false };
    return { can: true, step, note: withoutStop(dial.remedy) };
  }
  const can = within(step, boundedBy(change, dial), far?.reasons);
  const note =
    whole?.note ??
    otherTyre(rule, adjustment, sheet, far?.reasons) ??
    (adjustment.kind === 'click' ? ownSize(change, step, sheet, far ?? {}) : undefined);
  return note !== undefined && can.can && can.note === undefined ? { ...can, note } : can;
}

/** Without a sheet there are no numbers: a knob is there, is not, or has to be looked for, and may be at its stop. */
function asSaid(
  adjustment: Adjustment,
  said: BikeSheet,
  clicks: number | undefined,
  reasons: Reasons | undefined,
): Possibility {
  const { change } = adjustment;
  const unmet = missing(adjustment, said);
  if (unmet !== undefined) return { can: false, why: unmet, unfit: true };
  if (change === undefined) return { can: true };
  const turns = turnsTold(change, said);
  if (turns !== undefined && turns > change.most!)
    return { can: false, why: reasonIn(reasons, 'other-rate', { turns }), unfit: false };
  const step = inClicks(change, clicks);
  const dial = dialOf(said, step);
  if (!('message' in dial))
    return dial.at === undefined && dial.now === undefined
      ? { can: true, step }
      : within(step, dial, reasons);
  if (dial.unsaid === true) return lookFirst(step, dial);
  if (dial.unfit === true) return { can: false, why: decapital(withoutStop(dial.message)), unfit: true };
  return isCounted(step.unit)
    ? { can: false, why: decapital(withoutStop(dial.message)), unfit: false }
    : { can: true, step };
}

function inClicks({ setting, by, unit }: Change, clicks: number | undefined): Step {
  return { setting, by: unit === 'clicks' && clicks !== undefined ? Math.sign(by) * clicks : by, unit };
}

/**
 * The whole correction of a spring, in the unit the sheet is kept in; undefined where the rule takes steps of its own, or
 * the sag asks for the other way.
 */
export function neededOf(
  { setting, by, unit, most }: NonNullable<Adjustment['change']>,
  spring: SpringCorrection | undefined,
  sheet: BikeSheet,
): { readonly far: number; readonly unit: ChangeUnit; readonly si: number } | undefined {
  if (most === undefined || spring === undefined || Math.sign(spring.by) !== Math.sign(by)) return undefined;
  const own = unit === 'psi' || unit === 'bar' ? sheet.units.pressure : unit;
  const end = ENDS.find((one) => setting.startsWith(`${one}.`));
  const part = end === undefined ? undefined : sheet.ends[end].spring;
  const si = own === 'turns' ? (part?.kind === 'coil' ? part.preloadPerTurn : undefined) : siPer(own as Unit);
  return si === undefined ? undefined : { far: Math.abs(spring.by) / si, unit: own, si };
}

/**
 * The whole correction, as far as it goes at once. A coil that wants more preload than that wants another rate instead.
 */
function corrected(
  change: NonNullable<Adjustment['change']>,
  spring: SpringCorrection,
  sheet: BikeSheet,
  { reasons, 'air-at-once': share = Infinity }: HowFar = {},
): { readonly step: Step; readonly note?: string } | { readonly why: string } | undefined {
  const needed = neededOf(change, spring, sheet);
  if (needed === undefined) return undefined;
  const { setting, by, unit } = change;
  const { far, unit: own, si } = needed;
  const dial = dialOf(sheet, { setting, unit: own });
  const most = own === unit ? change.most! : (change.most! * siPer(unit as Unit)) / si;
  const now = 'message' in dial || own === 'turns' ? undefined : dial.now;
  const limit = Math.min(most, now === undefined ? Infinity : share * now);
  const grain = 'message' in dial ? 0.01 : dial.grain;
  if (own === 'turns' && far > limit + grain / 2)
    return {
      why: reasonIn(reasons, 'other-rate', { turns: Math.round(far) }),
    };
  const maker = rowFor({ setting, unit: own }, sheet.settings)?.shown(sheet)?.maker;
  // Past the maker's figure nobody knows how it will ride: that far first.
  const toMaker = now === undefined ? undefined : ahead({ by }, now, maker);
  if (toMaker !== undefined && toMaker >= grain - 1e-9 && toMaker < Math.min(far, limit) - grain / 2)
    return {
      step: { setting, by: Number((Math.sign(by) * toMaker).toFixed(3)), unit: own },
      note: reasonIn(reasons, 'maker-first'),
    };
  const cut = far > limit + grain / 2;
  const size = Math.max(1, cut ? Math.floor(limit / grain + 1e-9) : Math.round(far / grain)) * grain;
  const step = { setting, by: Number((Math.sign(by) * size).toFixed(3)), unit: own };
  const notes = [
    ...(cut ? [reasonIn(reasons, 'in-one-go')] : []),
    ...(by < 0 && now !== undefined && maker !== undefined && now - size < maker - grain / 2
      ? [reasonIn(reasons, 'below-maker', { maker: `${maker} ${own}` })]
      : []),
  ];
  return notes.length > 0 ? { step, note: notes.join('; ') } : { step };
}

/** A pressure step in the unit the sheet is kept in, to what its gauge can show. */
function inOwnUnits(step: Step, sheet: BikeSheet): Step {
  const own = sheet.units.pressure;
  if ((step.unit !== 'psi' && step.unit !== 'bar') || step.unit === own) return step;
  const dial = dialOf(sheet, { setting: step.setting, unit: own });
  const by = (step.by * siPer(step.unit)) / siPer(own);
  const grain = 'message' in dial ? 0.01 : dial.grain;
  return { setting: step.setting, by: Number((Math.round(by / grain) * grain).toFixed(3)), unit: own };
}

/** What the adjustment needs and the sheet denies, in words. */
function missing(adjustment: Adjustment, sheet: BikeSheet, near?: HowFar['near']): string | undefined {
  for (const [path, values] of Object.entries(adjustment.needs)) {
    const fact = sheetFact(sheet, path, near);
    if (fact !== undefined && !values.includes(fact))
      return `it needs the ${settingWords(path, sheet)} to be ${values.join(' or ')}, and on this bike it is ${fact}`;
  }
  return undefined;
}

function lookFirst(step: Step, { message, remedy }: NoDial): Possibility {
  return { can: true, step, note: withoutStop(`${message} ${remedy}`), look: true };
}

/**
 * Of another coil, which: the rate that the measured sag asks for with as little preload as the rules leave, and how much
 * that is. Preload that was added to the old coil would stand in for rate.
 */
export function withCoil(
  { rules: { settings, adjustments } }: Model,
  { end, kind, moves }: Adjustment,
  can: Possibility,
  physics: Physics | undefined,
  bike: BikeSheet,
): Possibility {
  const carries = end === undefined ? undefined : physics?.springs?.[end]?.carries;
  if (end === undefined || carries === undefined || !can.can || kind !== 'rebuild') return can;
  if (!moves.some((move) => settings[move.setting]!.kind === 'spring')) return can;
  const { spring } = bike.ends[end];
  if (spring.kind !== 'coil' || spring.preload === undefined) return can;
  const turns = adjustments.find(
    ({ end: own, change }) => own === end && change?.unit === 'turns' && change.notBelow !== undefined,
  )?.change?.notBelow;
  const least =
    turns === undefined || spring.preloadPerTurn === undefined ? Infinity : turns * spring.preloadPerTurn;
  const preload = Math.min(spring.preload, least);
  const { rate: unit, length } = bike.units;
  const rate = inUnit(settable(carries.force / (carries.shaft + preload), unit), unit);
  const held = `${writeQuantity(preload, length)} of preload`;
  const note =
    preload < spring.preload
      ? `fit a coil of about ${rate} ${unit} with ${held}; wind the collar back to that first (now ${writeQuantity(spring.preload, length)})`
      : `fit a coil of about ${rate} ${unit}; it holds with the ${held} that is on now`;
  return { ...can, note };
}
