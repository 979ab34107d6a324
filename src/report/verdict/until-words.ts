/** How often a step is repeated where the sheet says that one is not enough. */
import type { Change } from '../../bike/change.ts';
import { writeAim, writeNumber } from '../../bike/gauge/read-number.ts';
import { sagOnRide, usualTyre } from '../../bike/end-readings.ts';
import { rowFor } from '../../bike/settings.ts';
import { ENDS, type BikeSheet, type End } from '../../bike/sheet.ts';
import { settable, siPer, writeQuantity } from '../../bike/units.ts';
import type { CaseAnswer } from '../../casework/case.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import { reasonIn } from '../../rulebase/reasons.ts';

/** Sag this far off, as a share of the travel, takes more than one step (judgement). */
const FAR = 0.03;

/** Whether the sheet has a figure that ends such a step: the sag wanted, or a target. */
export function hasFigure(step: Change, sheet: BikeSheet): boolean {
  const row = rowFor(step, sheet.settings);
  const dial = row?.dial(sheet, step);
  if (
    row?.end !== undefined &&
    dial !== undefined &&
    !('message' in dial) &&
    dial.stale.includes('sag.measured')
  ) {
    const end = sheet.ends[row.end];
    return sagOnRide(end) !== undefined && end.sagWanted !== undefined;
  }
  const { now, wanted } = row?.shown(sheet) ?? {};
  return now !== undefined && wanted !== undefined;
}

/** `then measure sag again, and repeat until it is 28 %`; undefined where one step is enough, or nothing is known. */
export function untilWords(step: Change, sheet: BikeSheet): string | undefined {
  const row = rowFor(step, sheet.settings);
  const end = ENDS.find((one) => one === row?.end);
  const dial = row?.dial(sheet, step);
  if (row === undefined || dial === undefined || 'message' in dial) return undefined;
  if (dial.stale.includes('sag.measured') && end !== undefined) {
    const { sagWanted } = sheet.ends[end];
    const sag = sagOnRide(sheet.ends[end]);
    if (sag === undefined || sagWanted === undefined) return undefined;
    if (Math.abs(sag - sagWanted) < FAR) return undefined;
    const limit = step.by < 0 ? dial.min : dial.max;
    const left = dial.now === undefined ? Infinity : (limit - dial.now - step.by) * Math.sign(step.by);
    // Where the step ends at the limit there is nothing to repeat.
    return left < dial.grain
      ? 'then measure sag again'
      : `then measure sag again, and repeat until it is ${Math.round(sagWanted * 100)} %${ofRing(sheet, end, sagWanted)}`;
  }
  const { now, wanted, unit } = row.shown(sheet) ?? {};
  if (now === undefined || unit !== step.unit) return undefined;
  if (wanted === undefined) return undefined;
  const left = wanted - now;
  const more = Math.sign(left) === Math.sign(step.by) && Math.abs(left) > Math.abs(step.by) + 1e-6;
  return more ? `repeat until it is ${Math.round(wanted * 100) / 100} ${unit}` : undefined;
}

/** ` (15 of 52.5 mm)`: what that is on the ring, where the sheet knows the travel or the stroke. */
function ofRing({ ends, units }: BikeSheet, end: End, sag: number): string {
  const whole = end === 'front' ? ends.front.travel : (ends.rear.stroke ?? 0);
  return whole > 0 ? ` (${writeAim(sag, { whole, unit: units.length })})` : '';
}

/**
 * The same without a sheet, of what was measured in an answer: nobody knows how far one step of this spring or tyre goes.
 * Undefined where the number does not ask for a step that way.
 * @param repeat of the adjustment: where it stops before that figure
 */
export function untilMeasured(
  step: Change,
  answers: readonly CaseAnswer[],
  { questions, reasons }: Pick<CompiledRules, 'questions' | 'reasons'>,
  repeat: Adjustment['repeat'],
): string | undefined {
  const aim = aimOf(step, answers, { questions });
  return aim === undefined ? undefined : untilRead(reasons, aim, repeat);
}

/** The middle of what a number was held against that asks for a step that way: the edge is nothing to aim at. */
export function aimOf(
  { setting, by }: Pick<Change, 'setting' | 'by'>,
  answers: readonly CaseAnswer[],
  { questions }: Pick<CompiledRules, 'questions'>,
): string | undefined {
  for (const { question: id, measured } of answers) {
    const { gauge, measures } = questions.find((q) => q.id === id) ?? {};
    if (measured === undefined || gauge === undefined || measures !== setting) continue;
    const { value, unit, band, length } = measured;
    const off = value < band[0] ? 1 : value > band[1] ? -1 : 0;
    // More of a spring is less sag; of a pressure it is more.
    if (off === 0 || Math.sign(by) !== (gauge.reads === 'sag' ? -off : off)) continue;
    const aim = (band[0] + band[1]) / 2;
    return `${writeNumber(aim, unit)}${length === undefined ? '' : ` (${writeAim(aim, length)})`}`;
  }
  return undefined;
}

/**
 * Of a tyre without a target, how long to go on by what is usual for the weight on the sheet; undefined where the sheet does not
 * tell.
 * @returns null where it stands beyond that already, and no figure says how long
 */
export function untilUsual(
  step: Change,
  sheet: BikeSheet,
  { reasons, sheetCheck: { near } }: Pick<CompiledRules, 'reasons' | 'sheetCheck'>,
  repeat: Adjustment['repeat'],
): string | null | undefined {
  const row = rowFor(step, sheet.settings);
  const end = ENDS.find((one) => one === row?.end);
  const now = row?.shown(sheet)?.now;
  const usual = end === undefined ? undefined : usualTyre(sheet.riderMass, end, near['tyre-for']);
  if (now === undefined || usual === undefined) return undefined;
  const { pressure } = sheet.units;
  const left = (usual / siPer(pressure) - now) * Math.sign(step.by);
  return left <= Math.abs(step.by)
    ? null
    : untilRead(reasons, writeQuantity(settable(usual, pressure), pressure), repeat);
}

function untilRead(reasons: CompiledRules['reasons'], figure: string, repeat: Adjustment['repeat']): string {
  return repeat === undefined
    ? reasonIn(reasons, 'until-read', { figure })
    : reasonIn(reasons, 'until-read-or-stop', { figure, stop: repeat.stop });
}
