/** Quantities with units, read and written as the user prefers; SI inside. */
import type { UnitChoice } from './sheet.ts';

export type Dimension = 'pressure' | 'mass' | 'rate' | 'length';

/** Pound-force in newtons: the international avoirdupois pound (0.45359237 kg exactly, 1959) at standard gravity (9.80665 m/s², CGPM 1901). */
const POUND_FORCE = 0.45359237 * 9.80665;
/** The international inch, exactly (1959). */
const INCH = 0.0254;

/** unit → how much SI it is (Pa, kg, N/m, m) */
export const UNITS: Readonly<Record<Dimension, Readonly<Record<string, number>>>> = {
  pressure: { psi: POUND_FORCE / INCH ** 2, bar: 1e5, kPa: 1e3 },
  mass: { kg: 1, lb: 0.45359237 },
  rate: { 'N/mm': 1e3, 'lb/in': POUND_FORCE / INCH },
  length: { mm: 1e-3, in: INCH },
};

export const DEFAULT_UNITS: UnitChoice = { pressure: 'psi', mass: 'kg', rate: 'N/mm', length: 'mm' };

/** Digits after the point that are written, fine enough for what a gauge or a ruler shows. */
const DIGITS: Readonly<Record<string, number>> = {
  psi: 1,
  bar: 2,
  kPa: 0,
  kg: 1,
  lb: 1,
  'N/mm': 1,
  'lb/in': 0,
  mm: 1,
  in: 2,
};

export type Quantity =
  { readonly ok: true; readonly value: number } | { readonly ok: false; readonly why: string };

/** Reads `82 psi`, `5.6bar`, or a plain number in the preferred unit; SI out. */
export function readQuantity(raw: unknown, dimension: Dimension, preferred: string): Quantity {
  const units = UNITS[dimension];
  const names = Object.keys(units).join(', ');
  if (typeof raw === 'number') return finite(raw, units[preferred]!, String(raw));
  if (typeof raw !== 'string')
    return { ok: false, why: `expected a number or a text such as "80 ${preferred}"` };
  const found = /^\s*([+-]?\d+(?:[.,]\d+)?)\s*([a-zA-Z/]*)\s*$/.exec(raw);
  if (found === null) return { ok: false, why: `${show(raw)} is no number with a unit (${names})` };
  const unit =
    found[2] === '' ? preferred : Object.keys(units).find((u) => u.toLowerCase() === found[2]!.toLowerCase());
  if (unit === undefined) return { ok: false, why: `the unit ${found[2]} is not known here; use ${names}` };
  return finite(Number(found[1]!.replace(',', '.')), units[unit]!, raw);
}

function finite(value: number, unit: number, raw: string): Quantity {
  return Number.isFinite(value)
    ? { ok: true, value: value * unit }
    : { ok: false, why: `${show(raw)} is no number` };
}

/** SI → `82 psi`, in the preferred unit. */
export function writeQuantity(si: number, dimension: Dimension, unit: string): string {
  return `${inUnit(si, dimension, unit)} ${unit}`;
}

/** SI → a number in a unit, rounded to what a gauge shows. */
export function inUnit(si: number, dimension: Dimension, unit: string): number {
  const scale = 10 ** (DIGITS[unit] ?? 2);
  return Math.round((si / UNITS[dimension][unit]!) * scale) / scale;
}

/** Reads `28%`, `28 %` or a fraction such as 0.28; a fraction out. */
export function readShare(raw: unknown): Quantity {
  if (typeof raw === 'number') {
    if (!Number.isFinite(raw)) return { ok: false, why: `${raw} is no number` };
    return raw > 1
      ? { ok: false, why: `${raw} is more than the whole; write ${raw}% for a percentage` }
      : { ok: true, value: raw };
  }
  const found = typeof raw === 'string' ? /^\s*(\d+(?:[.,]\d+)?)\s*%\s*$/.exec(raw) : null;
  if (found === null) return { ok: false, why: 'expected a percentage such as 28%' };
  return { ok: true, value: Number(found[1]!.replace(',', '.')) / 100 };
}

export function writeShare(share: number): string {
  return `${Math.round(share * 1000) / 10}%`;
}

function show(text: string): string {
  return text.length > 30 ? `${text.slice(0, 27)}...` : text;
}
