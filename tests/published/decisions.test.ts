import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { expectedWorth, valueOfKnowing, type Payoff } from '../../src/advice/payoff.ts';
import { searchOrder } from '../../src/advice/best-of.ts';

/** One choice against leaving it: worth when the cause is there, and when it is not. */
function oneChoice(there: number, not: number): Payoff {
  return {
    adjustments: Uint16Array.from([0]),
    base: Float64Array.from([not]),
    gainStart: Int32Array.from([0, 1]),
    gainCause: Int16Array.from([0]),
    gain: Float64Array.from([there - not]),
    cure: Float64Array.from([1]),
    best: Float64Array.from([Math.max(0, not), Math.max(0, there)]),
  };
}

describe('value of information', () => {
  it('is 120 for the drilling problem (Samuelson & Marks, Managerial Economics, ch. 13)', () => {
    // P(wet) = 0.4, wet +600, dry −200 thousand: without information 120, with a perfect test 240.
    const payoff = oneChoice(600, -200);
    const worth = expectedWorth(payoff, Float64Array.from([0.4]))[0]!;
    expect(worth).toBeCloseTo(120, 10);
    expect(valueOfKnowing(payoff, Float64Array.from([0.6, 0.4]), worth)).toBeCloseTo(120, 10);
  });

  it('is 60 for the used car, bought at 290 without a test (AIMA exercise after Pearl 1988)', () => {
    // Price 1500, value 2000, repair 700 if bad, P(good) = 0.7: a perfect test saves 0.3 × 200.
    const payoff = oneChoice(500, -200);
    const worth = expectedWorth(payoff, Float64Array.from([0.7]))[0]!;
    expect(worth).toBeCloseTo(290, 10);
    expect(valueOfKnowing(payoff, Float64Array.from([0.3, 0.7]), worth)).toBeCloseTo(60, 10);
  });

  it('is nothing when no answer could change the choice', () => {
    const payoff = oneChoice(500, 100);
    const worth = expectedWorth(payoff, Float64Array.from([0.7]))[0]!;
    expect(valueOfKnowing(payoff, Float64Array.from([0.3, 0.7]), worth)).toBeCloseTo(0, 12);
  });
});

/** Expected cost of repair, parts observed in order until the fault is found (Heckerman, Breese & Rommelse 1995). */
function expectedCost(order: readonly number[], p: readonly number[], cost: readonly number[]): number {
  let left = 1;
  let sum = 0;
  for (const i of order) {
    sum += left * cost[i]!;
    left -= p[i]!;
  }
  return sum;
}

function permutations(list: readonly number[]): number[][] {
  return list.length <= 1
    ? [[...list]]
    : list.flatMap((x) => permutations(list.filter((y) => y !== x)).map((rest) => [x, ...rest]));
}

describe('the order of trying', () => {
  it('is 3, 2, 1 with cost 9.2 on a constructed case (not published)', () => {
    const p = [0.5, 0.3, 0.2];
    const cost = [10, 4, 1];
    expect(searchOrder(p, cost)).toEqual([2, 1, 0]);
    expect(expectedCost([2, 1, 0], p, cost)).toBeCloseTo(9.2, 10);
    expect(expectedCost([0, 1, 2], p, cost)).toBeCloseTo(12.2, 10);
  });

  it('is never beaten by any permutation (Kadane & Simon, chance over cost)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 100 }), fc.integer({ min: 1, max: 50 })), {
          minLength: 2,
          maxLength: 5,
        }),
        (items) => {
          const total = items.reduce((s, [w]) => s + w, 0);
          const p = items.map(([w]) => w / total);
          const cost = items.map(([, c]) => c);
          const best = Math.min(...permutations([...p.keys()]).map((order) => expectedCost(order, p, cost)));
          expect(expectedCost(searchOrder(p, cost), p, cost)).toBeCloseTo(best, 9);
        },
      ),
    );
  });
});
