/** The chance that a change is worth having: by hand, and by integrating prior times likelihood. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { chanceOf } from '../../src/trials/chance.ts';
import { EXPECTED } from './invented.ts';

const density = (x: number, mean: number, sd: number): number =>
  Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
const none = { ...EXPECTED, misled: 0 };

test('agrees with prior times likelihood, integrated', () => {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    // Beyond one standard deviation of what helps or harms, 1.5 points, the likelihood falls no further (`seenAs`): no integral.
    fc.property(
      real(0, 0.8),
      real(0, 0.2),
      real(-1.5, 1.5),
      real(0.2, 1.2),
      (helps, harms, points, error) => {
        const shares = [helps, 1 - helps - harms, harms];
        const deeds = [EXPECTED.points.helped, EXPECTED.points.nothing, EXPECTED.points.harmed];
        let [above, all] = [0, 0];
        for (let e = -6.9975; e <= 7; e += 0.005) {
          const prior = deeds.reduce((sum, [mean, sd], i) => sum + shares[i]! * density(e, mean, sd), 0);
          const weight = prior * density(points, e, error);
          all += weight;
          if (e > 0.25) above += weight;
        }
        expect(chanceOf(none, { helps, harms }, { points, error }, 0.25)).toBeCloseTo(above / all, 2);
      },
    ),
    { numRuns: 25 },
  );
});

test('by hand: one deed, precision 4 + 4, so the mean is half-way and the spread 0.354', () => {
  // Helped for certain: N(1, 0.5²) and a measured 0 ± 0.5 make N(0.5, 0.3536²); above 0.5 with a chance of one half.
  expect(chanceOf(none, { helps: 1, harms: 0 }, { points: 0, error: 0.5 }, 0.5)).toBeCloseTo(0.5, 9);
  expect(chanceOf(none, { helps: 1, harms: 0 }, { points: 0, error: 0.5 }, 0.5 + 0.35355)).toBeCloseTo(
    0.1587,
    3,
  );
});

test('grows with what the diagnosis expects, and with what was measured', () => {
  const at = (helps: number, points: number): number =>
    chanceOf(EXPECTED, { helps, harms: 0.05 }, { points, error: 0.5 }, 0.25);
  expect(at(0.8, 0.9)).toBeGreaterThan(at(0.4, 0.9));
  expect(at(0.8, 0.9)).toBeGreaterThan(at(0.8, 0.5));
});
