/** What a measured number is held against, and what it comes to, in words. */
import { targetOf, type Gauge } from '../bike/gauge/gauge.ts';
import { wholeOf, writeAims, writeBand, writeNumber, type ReadUnit } from '../bike/gauge/read-number.ts';
import type { BikeSheet, End } from '../bike/sheet.ts';
import { inUnit, siPer, writeQuantity } from '../bike/units.ts';
import type { Measured } from '../casework/case.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';

/**
 * `Usual: 15 to 20 % of the travel; 13 to 22 % is on target.` Undefined where nobody but the manual knows.
 * @param mass of the rider with kit, kg, where he told it
 */
export function onTargetText(
  gauge: Gauge,
  end: End,
  sheet: BikeSheet | undefined,
  { sheetCheck, usualNote }: Pick<CompiledRules, 'sheetCheck' | 'usualNote'>,
  mass: number | undefined = sheet?.riderMass,
): string | undefined {
  const unit: ReadUnit = gauge.reads === 'sag' ? '%' : (sheet?.units.pressure ?? 'psi');
  const note = usualNote === undefined ? '' : ` ${usualNote}`;
  const target = targetOf(gauge, end, sheet, sheetCheck.near, mass);
  if (target !== undefined) {
    const lead =
      target.of === 'sheet'
        ? 'Target on the sheet'
        : target.of === 'usual'
          ? 'Usual'
          : `Usual for ${writeQuantity(mass!, sheet?.units.mass ?? 'kg')}`;
    const of = gauge.reads === 'sag' ? ` of the ${wholeOf(end)}` : '';
    return `${lead}: ${writeBand(target.figure, unit)}${of}; ${writeBand(target.band, unit)} is ${target.of === 'weight' ? 'inside of what is usual' : 'on target'}.${target.of === 'sheet' ? '' : note}`;
  }
  const rows = gauge.against.some(({ of }) => of === 'weight')
    ? sheetCheck.near['tyre-for']?.rows
    : undefined;
  if (rows === undefined) return undefined;
  const some = rows.map((row) => `${inOther(row[end] * siPer('psi'))} for ${row.kg} kg`);
  return `Usual with kit: ${some.join(', ')}.${note}`;
}

/** `23.5 psi (1.6 bar)` */
function inOther(pressure: number): string {
  return `${writeQuantity(pressure, 'psi')} (${Math.round(10 * inUnit(pressure, 'bar')) / 10} bar)`;
}

/**
 * `43 %: too much sag (on target is 13 to 22 %)`; held against what is usual for a weight, which is far too wide for a target,
 * `1.55 bar: inside of what is usual for the weight (1.4 to 2.33 bar)`.
 */
export function readBackText(
  { value, unit, band, length }: Measured,
  answer: string,
  isUsual = false,
): string {
  const number = writeNumber(value, unit);
  return isUsual
    ? `${number}: inside of what is usual for the weight (${writeBand(band, unit)}); your own usual figure goes before it`
    : `${number}: ${answer} (on target is ${writeBand(band, unit)}${length === undefined ? '' : `, ${writeAims(band, length)}`})`;
}

/** `rear.sag=43.3%`: what `bike set` takes to write it on the sheet. */
export function setText(reads: Gauge['reads'], end: End, { value, unit }: Measured): string {
  const key = { sag: 'sag', tyre: 'tyre', spring: 'spring.pressure' }[reads];
  return `${end}.${key}=${writeNumber(value, unit).replace(' ', '')}`;
}
