/** Quantities with units, read and written as the user prefers; SI inside. */
import { printable } from '../form/text.ts';
import type { UnitChoice } from './sheet.ts';

export type Dimension = keyof UnitChoice;
export type Unit = UnitChoice[Dimension];

/** The international avoirdupois pound, kg, exactly (yard and pound agreement, 1959). */
const POUND = 0.45359237;
/** The international inch, m, exactly (the same agreement). */
const INCH = 0.0254;
/** Standard gravity, m/s², exactly (3rd general conference on weights and measures, 1901). */
const STANDARD_GRAVITY = 9.80665;
const POUND_FORCE = POUND * STANDARD_GRAVITY;

/** How much one unit is in SI: Pa, kg, N/m, m. */
const UNITS: Readonly<{ [D in Dimension]: Readonly<Record<UnitChoice[D], number>> }> = {
  pressure: { psi: POUND_FORCE / INCH ** 2, bar: 1e5, kPa: 1e3 },
  mass: { kg: 1, lb: POUND },
  rate: { 'N/mm': 1e3, 'lb/in': POUND_FORCE / INCH },
  length: { mm: 1e-3, in: INCH },
};

/** Other ways people write the same units. */
const ALSO: Readonly<Record<string, Unit>> = { lbs: 'lb', 'lbs/in': 'lb/in', inch: 'in', '"': 'in' };

export const DEFAULT_UNITS: UnitChoice = { pressure: 'psi', mass: 'kg', rate: 'N/mm', length: 'mm' };

/** Digits after the point that are written: what a gauge, a scale or a calliper shows. */
const DIGITS: Readonly<Record<Unit, number>> = {
  psi: 1,
  bar: 2,
  kPa: 0,
  kg: 1,
  lb: 1,
  'N/mm': 1,
  'lb/in': 0,
  mm: 2,
  in: 3,
};

export type Quantity =
  { readonly ok: true; readonly value: number } | { readonly ok: false; readonly why: string };

const AMOUNT = String.raw`([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))`;
const QUANTITY = new RegExp(String.raw`^\s*${AMOUNT}\s*([a-zA-Z/"]*)\s*$`);
const SHARE = new RegExp(String.raw`^\s*${AMOUNT}\s*%\s*$`);

export function unitsOf<D extends Dimension>(dimension: D): UnitChoice[D][] {
  return Object.keys(UNITS[dimension]) as UnitChoice[D][];
}

/** Every way to write a unit of this dimension; case does not matter. */
export function unitSpellings(dimension: Dimension): string[] {
  const units: readonly Unit[] = unitsOf(dimension);
  return [...units, ...Object.keys(ALSO).filter((name) => units.includes(ALSO[name]!))];
}

/** `PSI` → psi, `lbs` → lb; undefined for a unit of something else. */
export function unitNamed<D extends Dimension>(name: string, dimension: D): UnitChoice[D] | undefined {
  const lower = name.toLowerCase();
  const unit = ALSO[lower] ?? lower;
  return unitsOf(dimension).find((u) => u.toLowerCase() === unit.toLowerCase());
}

/** What a unit measures; undefined for what is only counted. */
export function dimensionOf(unit: string): Dimension | undefined {
  return (Object.keys(UNITS) as Dimension[]).find((dimension) => Object.hasOwn(UNITS[dimension], unit));
}

/** SI per unit. */
export function siPer(unit: Unit): number {
  for (const units of Object.values(UNITS))
    if (unit in units) return (units as Record<string, number>)[unit]!;
  throw new RangeError(`no unit ${unit}`);
}

/** Reads `82 psi`, `5.6bar`, `5,6 bar`, or a plain number in the preferred unit; SI out. */
export function readQuantity<D extends Dimension>(
  raw: unknown,
  dimension: D,
  preferred: UnitChoice[D],
): Quantity {
  if (typeof raw === 'number') return finite(raw, siPer(preferred), String(raw));
  if (typeof raw !== 'string')
    return { ok: false, why: `expected a number, or a text such as 80 ${preferred}` };
  const found = QUANTITY.exec(raw);
  const names = unitsOf(dimension).join(', ');
  if (found === null) return { ok: false, why: `${printable(raw)} is not a number with a unit (${names})` };
  const unit = found[2] === '' ? preferred : unitNamed(found[2]!, dimension);
  if (unit === undefined)
    return { ok: false, why: `the unit ${printable(found[2]!)} does not fit; use ${names}` };
  return finite(decimal(found[1]!), siPer(unit), raw);
}

function finite(value: number, unit: number, raw: string): Quantity {
  return Number.isFinite(value)
    ? { ok: true, value: value * unit }
    : { ok: false, why: `${printable(raw)} is no number` };
}

/** SI → a number in a unit, rounded to the digits that are written. */
export function inUnit(si: number, unit: Unit): number {
  const scale = 10 ** DIGITS[unit];
  return Math.round((si / siPer(unit)) * scale) / scale;
}

/** A number that is already in its unit, as people read it: to the digits of its gauge; what is counted, to hundredths. */
export function asRead(value: number, unit: string): number {
  const scale = 10 ** (Object.hasOwn(DIGITS, unit) ? DIGITS[unit as Unit] : 2);
  return Math.round(value * scale) / scale;
}

/** SI → `82 psi`. */
export function writeQuantity(si: number, unit: Unit): string {
  return `${inUnit(si, unit)} ${unit}`;
}

/** The least that a gauge shows and a hand can set, in the unit itself. Common practice, no source. */
const SETTABLE: Readonly<Partial<Record<Unit, number>>> = {
  psi: 1,
  bar: 0.1,
  kPa: 5,
  'N/mm': 5,
  'lb/in': 25,
};
/** The soft coils of a fork are sold in finer steps than those of a shock. Common practice, no source. */
const SOFT_COILS: Readonly<Partial<Record<Unit, { readonly below: number; readonly step: number }>>> = {
  'N/mm': { below: 20, step: 1 },
  'lb/in': { below: 100, step: 5 },
};

/** The nearest that can be set, or bought, within the limits, SI; never nothing of what there is some. */
export function settable(si: number, unit: Unit, min = -Infinity, max = Infinity): number {
  const soft = SOFT_COILS[unit];
  const own = soft !== undefined && si / siPer(unit) < soft.below ? soft.step : SETTABLE[unit];
  const step = (own ?? 0) * siPer(unit);
  if (step === 0) return si;
  const nearest = Math.max(si > 0 ? 1 : -Infinity, Math.round(si / step)) * step;
  return Math.min(max, Math.max(min, nearest));
}

/** Reads `28%`, `28 %`, `28,5%` or a fraction such as 0.28; a fraction out. */
export function readShare(raw: unknown): Quantity {
  if (typeof raw === 'number') {
    if (!Number.isFinite(raw)) return { ok: false, why: `${raw} is no number` };
    return raw > 1
      ? { ok: false, why: `${raw} needs a percent sign; write ${raw}%` }
      : { ok: true, value: raw };
  }
  const found = typeof raw === 'string' ? SHARE.exec(raw) : null;
  if (found === null) return { ok: false, why: 'expected a percentage such as 28%' };
  return { ok: true, value: decimal(found[1]!) / 100 };
}

/** A share rounded to the digits that are written, in percent: 0.2849 → 28.5. */
export function inPercent(share: number): number {
  return Math.round(share * 1000) / 10;
}

/** 0.2849 → `28.5%`. */
export function writeShare(share: number): string {
  return `${inPercent(share)}%`;
}

function decimal(text: string): number {
  return Number(text.replace(',', '.'));
}
