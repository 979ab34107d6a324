/** A number as somebody reads it off a ring, a ruler or a gauge: `43 %`, `26/60 mm`, `2.4 bar`. */
import { printable } from '../../form/text.ts';
import { LIMITS, type Range } from '../form/limits.ts';
import type { End, UnitChoice } from '../sheet.ts';
import { asRead, inUnit, siPer, unitNamed, type Unit } from '../units.ts';
import type { Band, Reads } from './gauge.ts';

export type ReadUnit = '%' | UnitChoice['pressure'];

/** What is known beside the number itself. */
export interface Beside {
  readonly end: End;
  /** travel at the front, stroke of the shock at the rear, m */
  readonly whole?: number | undefined;
  /** the unit that a number without one may be in, where two make sense */
  readonly pressure?: UnitChoice['pressure'] | undefined;
  /** how such a number may be written here, the last with what it is a part of */
  readonly like?: readonly string[] | undefined;
}

/** What a sag that was read off a ring in a unit of length is a share of. */
export interface Length {
  /** m */
  readonly whole: number;
  readonly unit: 'mm' | 'in';
}

/** The value as `Reads` has it, and the unit it was told in; of a sag that was told as a length, of which one. */
export type Read =
  | { readonly ok: true; readonly value: number; readonly unit: ReadUnit; readonly length?: Length }
  | { readonly ok: false; readonly why: string };

const NUMBER = String.raw`(\d+(?:[.,]\d+)?|[.,]\d+)`;
const ABOUT = String.raw`^\s*(?:about|around|roughly|some|ca\.?|~)?\s*`;
const SHARE = new RegExp(String.raw`${ABOUT}${NUMBER}\s*(%|percent|per cent)?\s*$`, 'i');
const LENGTH = String.raw`\s*(mm|cm|in|inch|inches|")?`;
const PART = new RegExp(
  String.raw`${ABOUT}${NUMBER}${LENGTH}\s*(?:(?:/|of|out of|from)\s*(?:the\s+)?${NUMBER}${LENGTH})?\s*$`,
  'i',
);
const PRESSURE = new RegExp(String.raw`${ABOUT}${NUMBER}\s*([a-z]*)\s*$`, 'i');
const BAND = new RegExp(
  String.raw`${ABOUT}${NUMBER}\s*([%a-z]*?)\s*(?:to|-|–)\s*${NUMBER}\s*([%a-z]*)\s*$`,
  'i',
);

const LIMITS_OF: Readonly<Record<Reads, Range>> = {
  sag: LIMITS.sag,
  tyre: LIMITS.tyrePressure,
  spring: LIMITS.springPressure,
};

const NAMES: Readonly<Record<Reads, string>> = {
  sag: 'a sag',
  tyre: 'a tyre pressure',
  spring: 'a spring pressure',
};

export function readNumber(text: string, reads: Reads, beside: Beside): Read {
  return reads === 'sag' ? readSag(text, beside) : readPressure(text, reads, beside);
}

/** `15 to 20 %`, or one figure, which is both ends of it. */
export function readBand(
  text: string,
  reads: Reads,
  beside: Beside,
): { readonly ok: true; readonly band: Band; readonly unit: ReadUnit } | Extract<Read, { ok: false }> {
  const [, from, , to, unit] = BAND.exec(text) ?? [];
  if (from === undefined || to === undefined) {
    const one = readNumber(text, reads, beside);
    return one.ok ? { ok: true, band: [one.value, one.value], unit: one.unit } : one;
  }
  const most = readNumber(`${to} ${unit ?? ''}`, reads, beside);
  if (!most.ok) return most;
  const least = readNumber(`${from} ${most.unit}`, reads, beside);
  if (!least.ok) return least;
  return least.value <= most.value
    ? { ok: true, band: [least.value, most.value], unit: most.unit }
    : { ok: false, why: `${printable(text)} begins above its end.` };
}

function readSag(text: string, beside: Beside): Read {
  const { end, whole, like = [] } = beside;
  const [, share, sign] = SHARE.exec(text) ?? [];
  // Below one and without its sign it is written as a fraction.
  if (share !== undefined) {
    const number = decimal(share);
    return inside(sign === undefined && number < 1 ? number : number / 100, '%', 'sag', beside);
  }
  const [, part, unit, of, ofUnit] = PART.exec(text) ?? [];
  if (part === undefined) return notRead(text, 'sag', beside);
  if (of !== undefined) {
    const both = [unit ?? ofUnit, ofUnit ?? unit].map(metres);
    const whole = decimal(of) * both[1]!;
    return told((decimal(part) * both[0]!) / whole, whole, ofUnit ?? unit, beside);
  }
  if (whole === undefined || whole === 0)
    return {
      ok: false,
      why: `${text.trim()} of how much? Write it with the ${wholeOf(end)}${like
        .slice(-1)
        .map((one) => `, like ${one}`)
        .join('')}.`,
    };
  return told((decimal(part) * metres(unit)) / whole, whole, unit, beside);
}

function told(share: number, whole: number, unit: string | undefined, beside: Beside): Read {
  const read = inside(share, '%', 'sag', beside);
  return read.ok ? { ...read, length: { whole, unit: metres(unit) === siPer('in') ? 'in' : 'mm' } } : read;
}

/** What sag is a share of. */
export function wholeOf(end: End): string {
  return end === 'front' ? 'travel' : "shock's stroke";
}

function readPressure(text: string, reads: 'tyre' | 'spring', beside: Beside): Read {
  const { pressure: own, like } = beside;
  const [, amount, name = ''] = PRESSURE.exec(text) ?? [];
  if (amount === undefined) return notRead(text, reads, beside);
  const number = decimal(amount);
  if (name !== '') {
    const unit = unitNamed(name, 'pressure');
    return unit === undefined
      ? notRead(text, reads, beside)
      : inside(number * siPer(unit), unit, reads, beside);
  }
  const fitting = unitsFor(number, reads);
  const [unit] = fitting.length === 1 || own === undefined ? fitting : fitting.filter((one) => one === own);
  if (unit === undefined || (fitting.length > 1 && own === undefined))
    return { ok: false, why: `${amount} of what?${written('Write', like)}` };
  return inside(number * siPer(unit), unit, reads, beside);
}

/** The units that a number without one can be a pressure in. */
function unitsFor(number: number, reads: 'tyre' | 'spring'): UnitChoice['pressure'][] {
  return (['psi', 'bar'] as const).filter((unit) => isIn(number * siPer(unit), LIMITS_OF[reads]));
}

/**
 * What else a digit can be that is the number of a line: `2 bar`. None for sag: nobody who sits on the bike reads so few per
 * cent.
 */
export function readingsOf(digits: string, reads: Reads): string[] {
  if (reads === 'sag' || !/^\d+$/.test(digits)) return [];
  return unitsFor(Number(digits), reads).map((unit) => `${Number(digits)} ${unit}`);
}

function inside(value: number, unit: ReadUnit, reads: Reads, { like }: Beside): Read {
  const limits = LIMITS_OF[reads];
  if (isIn(value, limits) && value > 0) return { ok: true, value, unit };
  const range = limits.map((limit) => writeNumber(limit, unit)).join(' to ');
  return {
    ok: false,
    why: `${writeNumber(value, unit)} cannot be ${NAMES[reads]} (${range}).${written('Write it like', like)}`,
  };
}

function notRead(text: string, reads: Reads, { like }: Beside): Read {
  return {
    ok: false,
    why: `${printable(text.trim())} is not ${NAMES[reads]}.${written('Write it like', like)}`,
  };
}

/** How such a number is written, where a pack says so. */
function written(lead: string, like: Beside['like'] = []): string {
  return like.length === 0 ? '' : ` ${lead} ${like.join(' or ')}.`;
}

/** `43.3 %`, `2.4 bar` */
export function writeNumber(value: number, unit: ReadUnit): string {
  return `${shown(value, unit)} ${unit}`;
}

/** `13 to 22 %`; one figure where both ends are the same */
export function writeBand([least, most]: Band, unit: ReadUnit): string {
  const [from, to] = [shown(least, unit), shown(most, unit)];
  return from === to ? `${from} ${unit}` : `${from} to ${to} ${unit}`;
}

/** `7/120 mm`: a sag as it is read off a ring, to half a millimetre, or as fine as it takes to read the same share again. */
export function writeLength(share: number, { whole, unit }: Length): string {
  const all = rounded(whole, unit, FINEST);
  const parts = GRAINS[unit].map((grain) => rounded(share * whole, unit, grain));
  const same = (part: number): boolean => shown(part / all, '%') === shown(share, '%');
  return `${parts.find(same) ?? parts.at(-1)!}/${all} ${unit}`;
}

const FINEST = 0.001;
const GRAINS = { mm: [0.5, 0.1, FINEST], in: [0.05, 0.01, FINEST] } as const;

/** `30 of 170 mm`: a sag to aim at; half a millimetre of a long fork is no aim. */
export function writeAim(share: number, { whole, unit }: Length): string {
  const coarse = unit === 'mm' && whole >= 0.1 ? 1 : undefined;
  return `${rounded(share * whole, unit, coarse)} of ${rounded(whole, unit)} ${unit}`;
}

/** `16 to 26 mm`: what is on target, of such a whole. */
export function writeAims(band: Band, { whole, unit }: Length): string {
  const [least, most] = band.map((share) => rounded(share * whole, unit));
  return `${least} to ${most} ${unit}`;
}

function rounded(m: number, unit: Length['unit'], grain: number = GRAINS[unit][0]): number {
  return Number((Math.round(m / siPer(unit) / grain) * grain).toFixed(3));
}

function shown(value: number, unit: ReadUnit): number {
  return unit === '%' ? Math.round(1000 * value) / 10 : inUnit(value, unit);
}

/** The value that is left of a number once it is written. */
export function asWritten(value: number, unit: ReadUnit): number {
  return unit === '%' ? shown(value, unit) / 100 : asRead(shown(value, unit), unit) * siPer(unit as Unit);
}

const isIn = (value: number, [least, most]: Range): boolean => value >= least && value <= most;
const decimal = (text: string): number => Number(text.replace(',', '.'));
const metres = (unit: string | undefined): number =>
  unit === undefined || unit.toLowerCase() === 'mm'
    ? siPer('mm')
    : unit.toLowerCase() === 'cm'
      ? 10 * siPer('mm')
      : siPer('in');
