/** The order of runs by calculation: variances by hand, by general least squares, and against every other order. */
import * as fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { leastSquares } from '../../src/trials/least-squares.ts';
import { bestRest, varianceOf } from '../../src/trials/order.ts';
import type { ArmName } from '../../src/trials/trial.ts';

const NAMES: Readonly<Record<string, ArmName>> = { R: 'reference', a: 'plus', b: 'minus' };
const order = (text: string): ArmName[] => [...text].map((letter) => NAMES[letter]!);
const letters = (arms: readonly ArmName[]): string =>
  arms.map((arm) => Object.keys(NAMES).find((letter) => NAMES[letter] === arm)!).join('');
const ONE: readonly ArmName[] = ['plus'];
const TWO: readonly ArmName[] = ['plus', 'minus'];

/** The fit of some scores, the first run weighed `first`. */
function weighted(
  runs: readonly ArmName[],
  arms: readonly ArmName[],
  scores: readonly number[],
  first: number,
) {
  const root = (i: number): number => (i === 0 ? Math.sqrt(first) : 1);
  return leastSquares(
    runs.map((run, i) => [1, i, ...arms.map((arm) => (arm === run ? 1 : 0))].map((x) => x * root(i))),
    scores.map((score, i) => score * root(i)),
  );
}

/** Sum of the variances of all pairwise comparisons, from the general solver. */
function byLeastSquares(runs: readonly ArmName[], arms: readonly ArmName[], first = 1): number {
  const fit = weighted(runs, arms, runs.map(() => 0), first); // prettier-ignore
  if (fit === null) return Infinity;
  const v = (i: number, j: number): number => fit.unscaled[i + 2]![j + 2]!;
  return arms.length === 1 ? v(0, 0) : v(0, 0) + v(1, 1) + (v(0, 0) + v(1, 1) - 2 * v(0, 1));
}

describe('the variance of a comparison, in units of the variance of one run', () => {
  // R a R: the mean of the two references stands at the run of a, so 1 + ½. R a a R: ½ + ½.
  it.each([
    ['RaR', 1.5],
    ['RaaR', 1],
    ['RaRa', 1.25],
    ['RaRaR', 1 / 2 + 1 / 3],
    ['RaRaaR', 35 / 52],
    ['Ra', Infinity],
  ])('%s: %d', (text, variance) => {
    expect(varianceOf(order(text), ONE)).toBeCloseTo(variance, 9);
  });

  it('of two steps against each other: 1.5 in the order R a b a R, 2.5 in R a R b R', () => {
    const between = (text: string): number => {
      const fit = leastSquares(
        order(text).map((run, i) => [1, i, ...TWO.map((arm) => (arm === run ? 1 : 0))]),
        [...text].map(() => 0),
      )!;
      return fit.unscaled[2]![2]! + fit.unscaled[3]![3]! - 2 * fit.unscaled[2]![3]!;
    };
    expect(between('RabaR')).toBeCloseTo(1.5, 9);
    expect(between('RaRbR')).toBeCloseTo(2.5, 9);
  });

  it('agrees with general least squares for every order', () => {
    for (const arms of [ONE, TWO])
      fc.assert(
        fc.property(
          fc.array(fc.constantFrom('reference', ...arms), { minLength: 3, maxLength: 9 }),
          fc.constantFrom(1, 0.5, 0.25),
          (runs, first) => {
            const [one, other] = [varianceOf(runs, arms, first), byLeastSquares(runs, arms, first)];
            if (other === Infinity) expect(one).toBe(Infinity);
            else expect(one / other).toBeCloseTo(1, 8);
          },
        ),
      );
  });
});

describe('the best order', () => {
  it.each([
    [4, 'RaaR'],
    [5, 'RaRaR'],
    [6, 'RaRaaR'],
  ])('of %i runs with one step is %s', (runs, text) => {
    expect(letters(bestRest([], ONE, runs))).toBe(text);
  });

  it.each([
    [5, 'RabaR'],
    [6, 'RabbaR'],
  ])('of %i runs with two steps is %s', (runs, text) => {
    expect(letters(bestRest([], TWO, runs))).toBe(text);
  });

  it('begins with the reference, and no order that does has less variance', () => {
    for (const arms of [ONE, TWO])
      for (let runs = 3; runs <= 6; runs++) {
        const names: readonly ArmName[] = ['reference', ...arms];
        const all = Array.from({ length: names.length ** (runs - 1) }, (_, code): ArmName[] => [
          'reference',
          ...Array.from(
            { length: runs - 1 },
            (__, i) => names[Math.floor(code / names.length ** i) % names.length]!,
          ),
        ]);
        const least = Math.min(...all.map((one) => byLeastSquares(one, arms)));
        const best = bestRest([], arms, runs);
        expect(best[0]).toBe('reference');
        if (least < Infinity) expect(varianceOf(best, arms)).toBeCloseTo(least, 9);
      }
  });

  it('after a run to warm up that counts half is a R a R R a, as good as any, and the least bent by what is no straight line', () => {
    const warm = order('R');
    const best = bestRest(warm, ONE, 6, 0.5);
    expect(letters(best)).toBe('aRaRRa');
    const all = Array.from({ length: 2 ** 6 }, (_, code): ArmName[] => [
      'reference',
      ...Array.from({ length: 6 }, (__, i): ArmName => ((code >> i) & 1 ? 'plus' : 'reference')),
    ]);
    const least = Math.min(...all.map((one) => byLeastSquares(one, ONE, 0.5)));
    expect(varianceOf([...warm, ...best], ONE, 0.5)).toBeCloseTo(least, 9);
    expect(least).toBeCloseTo(0.6206, 4);
    // The order with the reference first in the block, the best while the warm-up is left out of the account.
    expect(varianceOf(order('RRaRaaR'), ONE, 0.5)).toBeCloseTo(0.6487, 4);
    const settlesIn = (i: number): number => 1.5 * (1 - Math.exp(-i / 2));
    const tires = (i: number): number => -0.04 * i * i;
    for (const bent of [settlesIn, tires]) {
      const taken = (runs: readonly ArmName[]): number =>
        Math.abs(weighted(runs, ONE, runs.map((_, i) => bent(i)), 0.5)!.coefficients[2]!); // prettier-ignore
      expect(taken([...warm, ...best])).toBeLessThan(0.06);
      expect(taken(order('RRaRaaR'))).toBeGreaterThan(0.13);
    }
  });

  it('of equal ones takes that whose beginning tells most, so that three runs can be judged', () => {
    // R a a R R a and R a a R a R are as good after six runs, and nearly blind after three.
    expect(varianceOf(order('RaaRRa'), ONE)).toBeCloseTo(varianceOf(order('RaRaaR'), ONE), 12);
    expect(varianceOf(order('Raa'), ONE)).toBeCloseTo(6, 9);
    expect(varianceOf(bestRest([], ONE, 6).slice(0, 3), ONE)).toBeCloseTo(1.5, 9);
    // After one reference six more are as good as R a a a R R, which is blind for longer.
    expect(letters(bestRest(order('R'), ONE, 6))).toBe('aRaRaR');
  });

  it('mirrors the second block, so that a drift cancels over both', () => {
    const block = bestRest([], ONE, 6);
    const both = [...block, ...bestRest(block, ONE, 6)];
    expect(varianceOf(both, ONE)).toBeCloseTo(1 / 3, 9);
  });
});

test('after runs out of the plan it goes on with what is best from there', () => {
  const done = order('Raa');
  const rest = bestRest(done, ONE, 3);
  const others = ['RRR', 'RRa', 'RaR', 'Raa', 'aRR', 'aRa', 'aaR', 'aaa'].map((text) =>
    varianceOf([...done, ...order(text)], ONE),
  );
  expect(varianceOf([...done, ...rest], ONE)).toBeCloseTo(Math.min(...others), 12);
});
