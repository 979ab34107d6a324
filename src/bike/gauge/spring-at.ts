/** Beside a sag: the pressure that the air spring held when it was read, or the rate that stands on the coil. */
import { printable } from '../../form/text.ts';
import { LIMITS } from '../form/limits.ts';
import type { UnitChoice } from '../sheet.ts';
import { inUnit, readQuantity, siPer, unitNamed, writeQuantity } from '../units.ts';
import { asWritten, readNumber, type Beside } from './read-number.ts';

/** gauge pressure, Pa; rate, N/m; and the unit it was told in */
export type SpringAt =
  | { readonly pressure: number; readonly unit: UnitChoice['pressure'] }
  | { readonly rate: number; readonly unit: UnitChoice['rate'] };

type ReadAt = { readonly ok: true; readonly at: SpringAt } | { readonly ok: false; readonly why: string };

/** @param kind of the spring, where it is known; else the unit says it, and a number without one is a pressure */
export function readSpringAt(text: string, kind: 'air' | 'coil' | undefined, beside: Beside): ReadAt {
  const name = /[a-z/]+\s*$/i.exec(text)?.[0].trim() ?? '';
  const rate = unitNamed(name, 'rate');
  if (rate !== undefined && kind === 'air')
    return { ok: false, why: `${printable(text.trim())} is not the pressure of an air spring.` };
  if (rate !== undefined || (kind === 'coil' && name === '')) return readRate(text.trim(), rate);
  if (kind === 'coil') return { ok: false, why: `${printable(text.trim())} is not the rate of a coil.` };
  const read = readNumber(text, 'spring', beside);
  if (!read.ok) return read;
  const unit = read.unit as UnitChoice['pressure'];
  return { ok: true, at: { pressure: asWritten(read.value, unit), unit } };
}

/** A number without its unit is in the one that coils have it in, where only one is. */
function readRate(text: string, told: UnitChoice['rate'] | undefined): ReadAt {
  const units = told === undefined ? (['lb/in', 'N/mm'] as const) : [told];
  const fitting = units.flatMap((unit) => {
    const read = readQuantity(text, 'rate', unit);
    const [least, most] = LIMITS.rate;
    return read.ok && read.value >= least && read.value <= most
      ? [{ rate: inUnit(read.value, unit) * siPer(unit), unit }]
      : [];
  });
  const [one, ...others] = fitting;
  if (one === undefined) return { ok: false, why: `${printable(text)} is not the rate of a coil.` };
  return others.length > 0 ? { ok: false, why: `${printable(text)} of what?` } : { ok: true, at: one };
}

export function writeSpringAt(at: SpringAt): string {
  return writeQuantity('rate' in at ? at.rate : at.pressure, at.unit);
}
