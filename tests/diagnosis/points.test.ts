/** The likelihood of a measured difference, by hand and by numerical integration. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEEDS, seenAs, type Deed, type Seen } from '../../src/diagnosis/results.ts';

const NUMBERS = {
  points: { helped: [1, 0.5], nothing: [0, 0.15], harmed: [-1, 0.5] },
  misled: 0.05,
} as { points: Record<'helped' | 'nothing' | 'harmed', [number, number]>; misled: number };
/** The likelihood ratio, 10·log₁₀. */
const decibansBetween = (seen: Seen, one: Deed, other: Deed): number =>
  10 * Math.log10(seen[one] / seen[other]);
const density = (x: number, mean: number, sd: number): number =>
  Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));

describe('what a measured difference says', () => {
  it('is the normal density about each deed, its spread and the error added in squares', () => {
    const seen = seenAs(NUMBERS, { points: 1.2, error: 0.5 });
    expect(seen.helped).toBeCloseTo(0.95 * density(1.2, 1, Math.SQRT1_2) + 0.05 / 12, 12);
    expect(seen.nothing).toBeCloseTo(0.95 * density(1.2, 0, Math.hypot(0.15, 0.5)) + 0.05 / 12, 12);
    expect(seen.harmed).toBeCloseTo(0.95 * density(1.2, -1, Math.SQRT1_2) + 0.05 / 12, 12);
  });

  it('is what the integral over all effects gives', () => {
    const none = { ...NUMBERS, misled: 0 };
    fc.assert(
      fc.property(
        fc.double({ min: -1.5, max: 1.5, noNaN: true }),
        fc.double({ min: 0.2, max: 1.5, noNaN: true }),
        (points, error) => {
          const seen = seenAs(none, { points, error });
          for (const deed of DEEDS) {
            const [mean, sd] = none.points[deed];
            let sum = 0;
            for (let z = -8; z <= 8; z += 0.01)
              sum += 0.01 * density(z, 0, 1) * density(points, mean + sd * z, error);
            expect(sum).toBeCloseTo(seen[deed], 6);
          }
        },
      ),
      { numRuns: 20 },
    );
  });

  it('weighs a clear keep with some 14 to 17 decibans, and never more than its chance of being misled allows', () => {
    expect(
      decibansBetween(seenAs(NUMBERS, { points: 1.5, error: 0.5 }), 'helped', 'nothing'),
    ).toBeGreaterThan(13);
    expect(decibansBetween(seenAs(NUMBERS, { points: 1.5, error: 0.45 }), 'helped', 'nothing')).toBeLessThan(
      18,
    );
    fc.assert(
      fc.property(
        fc.double({ min: -6, max: 6, noNaN: true }),
        fc.double({ min: 0.05, max: 3, noNaN: true }),
        (points, error) => {
          const most = 10 * Math.log10((0.95 * density(0, 0, 0.15) + 0.05 / 12) / (0.05 / 12));
          const seen = seenAs(NUMBERS, { points, error });
          for (const one of DEEDS)
            for (const other of DEEDS) expect(decibansBetween(seen, one, other)).toBeLessThanOrEqual(most);
        },
      ),
    );
  });

  it('says no less where the difference is larger than a step usually makes', () => {
    const at = (points: number) => seenAs(NUMBERS, { points, error: 0.3 });
    expect(at(-4).harmed).toBe(at(-1.5).harmed);
    expect(at(5).helped).toBe(at(1.5).helped);
    for (let points = 1.5; points < 5; points += 0.25)
      expect(decibansBetween(at(points + 0.25), 'helped', 'nothing')).toBeGreaterThanOrEqual(
        decibansBetween(at(points), 'helped', 'nothing'),
      );
    expect(decibansBetween(at(-4), 'harmed', 'helped')).toBeGreaterThan(15);
  });

  it('turns six equal ratings against help, and says nothing where nothing was measured', () => {
    expect(decibansBetween(seenAs(NUMBERS, { points: 0, error: 0.3 }), 'nothing', 'helped')).toBeGreaterThan(
      8,
    );
    expect(decibansBetween(seenAs(NUMBERS, { points: 0, error: 50 }), 'nothing', 'helped')).toBeCloseTo(0, 1);
  });
});
