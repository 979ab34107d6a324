import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  inUnit,
  readQuantity,
  readShare,
  settable,
  siPer,
  unitNamed,
  unitsOf,
  writeQuantity,
  writeShare,
  type Dimension,
  type Unit,
} from '../../src/bike/units.ts';

const DIMENSIONS: Dimension[] = ['pressure', 'mass', 'rate', 'length'];
const EVERY = DIMENSIONS.flatMap((dimension) =>
  unitsOf(dimension).map((unit): [Dimension, Unit] => [dimension, unit]),
);
const ok = (value: number) => ({ ok: true, value: expect.closeTo(value, 6) });

describe('reading a quantity', () => {
  it.each<[unknown, Dimension, Unit, number]>([
    ['82 psi', 'pressure', 'bar', 565_370.098],
    ['5.6bar', 'pressure', 'psi', 560_000],
    ['5,6 bar', 'pressure', 'psi', 560_000],
    [' 560 KPA ', 'pressure', 'psi', 560_000],
    ['.5 bar', 'pressure', 'psi', 50_000],
    [82, 'pressure', 'psi', 565_370.098],
    ['82', 'pressure', 'bar', 8_200_000],
    ['190 lbs', 'mass', 'kg', 86.1825503],
    ['450 lb/in', 'rate', 'N/mm', 78_807.0759],
    ['80 n/mm', 'rate', 'lb/in', 80_000],
    ['6 "', 'length', 'mm', 0.1524],
    ['6 inch', 'length', 'mm', 0.1524],
  ])('reads %j', (raw, dimension, unit, si) => {
    const read = readQuantity(raw, dimension, unit as never);
    expect(read.ok && read.value).toBeCloseTo(si, 3);
  });

  it.each<[unknown, string]>([
    [Number.NaN, 'NaN is no number'],
    [Number.POSITIVE_INFINITY, 'Infinity is no number'],
    ['NaN psi', 'NaN psi is not a number with a unit (psi, bar, kPa)'],
    ['1e5', '1e5 is not a number with a unit (psi, bar, kPa)'],
    ['', ' is not a number with a unit (psi, bar, kPa)'],
    ['80 kg', 'the unit kg does not fit; use psi, bar, kPa'],
    [true, 'expected a number, or a text such as 80 psi'],
    [null, 'expected a number, or a text such as 80 psi'],
    ['9'.repeat(400), `${'9'.repeat(37)}... is no number`],
  ])('refuses %j', (raw, why) => {
    expect(readQuantity(raw, 'pressure', 'psi')).toEqual({ ok: false, why });
  });

  it('never lets a unit of another dimension through', () => {
    for (const [dimension, unit] of EVERY)
      for (const other of DIMENSIONS)
        expect(unitNamed(unit, other)).toBe(other === dimension ? unit : undefined);
  });
});

describe('writing a quantity', () => {
  it('writes what a gauge shows', () => {
    expect(writeQuantity(565_370.098, 'psi')).toBe('82 psi');
    expect(writeQuantity(565_370.098, 'bar')).toBe('5.65 bar');
    expect(writeQuantity(565_370.098, 'kPa')).toBe('565 kPa');
    expect(writeQuantity(78_807.0759, 'lb/in')).toBe('450 lb/in');
    expect(writeQuantity(78_807.0759, 'N/mm')).toBe('78.8 N/mm');
    expect(writeQuantity(0.0625, 'in')).toBe('2.461 in');
  });

  it.each(EVERY)(
    '%s in %s: written then read is the same within half of the last digit',
    (dimension, unit) => {
      fc.assert(
        fc.property(fc.double({ min: 0, max: 5000, noNaN: true }), (amount) => {
          const si = amount * siPer(unit);
          const read = readQuantity(writeQuantity(si, unit), dimension, unit as never);
          if (!read.ok) throw new Error(read.why);
          const digit = {
            psi: 0.1,
            bar: 0.01,
            kPa: 1,
            kg: 0.1,
            lb: 0.1,
            'N/mm': 0.1,
            'lb/in': 1,
            mm: 0.01,
            in: 0.001,
          };
          expect(Math.abs(read.value / siPer(unit) - amount)).toBeLessThanOrEqual(digit[unit] / 2 + 1e-9);
        }),
      );
    },
  );

  it.each(EVERY)('%s in %s: what was written and read is written the same again', (dimension, unit) => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5000, noNaN: true }), (amount) => {
        const written = writeQuantity(amount * siPer(unit), unit);
        const read = readQuantity(written, dimension, unit as never);
        expect(read.ok && writeQuantity(read.value, unit)).toBe(written);
      }),
    );
  });

  it('keeps the order of two values, so that a limit stays a limit', () => {
    const any = fc.double({ min: 0, max: 4e6, noNaN: true });
    fc.assert(
      fc.property(any, any, fc.constantFrom(...unitsOf('pressure')), (a, b, unit) => {
        expect(inUnit(Math.min(a, b), unit)).toBeLessThanOrEqual(inUnit(Math.max(a, b), unit));
      }),
    );
  });
});

describe('a share', () => {
  it.each<[unknown, number]>([
    ['28%', 0.28],
    [' 28,5 % ', 0.285],
    [0.28, 0.28],
    [1, 1],
  ])('reads %j', (raw, share) => {
    expect(readShare(raw)).toEqual(ok(share));
  });

  it.each([['28'], ['28 psi'], [28], [Number.NaN], [null], [{}]])('refuses %j', (raw) => {
    expect(readShare(raw).ok).toBe(false);
  });

  it('written then read is the same to a tenth of a percent', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), (thousandths) => {
        expect(readShare(writeShare(thousandths / 1000))).toEqual(ok(thousandths / 1000));
      }),
    );
  });
});

describe('what can be set or bought', () => {
  // Common practice, no source: coils of a shock by 25 lb/in, the soft ones of a fork by less.
  it.each<[number, Unit, number]>([
    [463, 'lb/in', 475],
    [447, 'lb/in', 450],
    [42, 'lb/in', 40],
    [81.7, 'N/mm', 80],
    [8.7, 'N/mm', 9],
    [0.3, 'N/mm', 1],
    [82.4, 'psi', 82],
  ])('%f %s is %f', (asked, unit, set) => {
    expect(settable(asked * siPer(unit), unit) / siPer(unit)).toBeCloseTo(set, 9);
  });
});
