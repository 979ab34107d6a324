import { describe, expect, it } from 'vitest';
import { brier, logLoss } from '../../src/evaluation/score.ts';

describe('scores of probability statements', () => {
  // Brier, Monthly Weather Review 78(1), 1950, 1–3: ten forecasts of rain, rain on occasions 2, 3 and 4; P = 0.19 in his
  // two-class form, which is exactly twice the one-class form used here. Table from memory; arithmetic checked.
  it('gives half of 0.19 for the ten forecasts of 1950', () => {
    const rain = [0.7, 0.9, 0.8, 0.4, 0.2, 0, 0, 0, 0, 0.1];
    const statements = rain.map((stated, i) => ({ stated, right: i >= 1 && i <= 3 }));
    expect(2 * brier(statements)).toBeCloseTo(0.19, 12);
  });
  it.each([
    [0.7, true, 0.09],
    [0.3, true, 0.49],
    [0.5, true, 0.25],
    [1, false, 1],
  ])('Brier score of %f when it came out %s is %f', (stated, right, expected) =>
    expect(brier([{ stated, right }])).toBeCloseTo(expected, 12),
  );
  it.each([
    [0.5, 0.693147],
    [0.9, 0.105361],
    [0.1, 2.302585],
  ])('log loss of %f is %f nats', (stated, expected) =>
    expect(logLoss([{ stated, right: true }])).toBeCloseTo(expected, 6),
  );
  it('stays finite for a certain statement that was wrong', () =>
    expect(Number.isFinite(logLoss([{ stated: 1, right: false }]))).toBe(true));
  it('is proper: stating the truth scores best', () => {
    for (const truth of [0.1, 0.4, 0.75]) {
      const expected = (score: typeof brier, stated: number): number =>
        truth * score([{ stated, right: true }]) + (1 - truth) * score([{ stated, right: false }]);
      for (const score of [brier, logLoss]) {
        for (const other of [0.05, 0.3, 0.6, 0.95])
          expect(expected(score, truth)).toBeLessThanOrEqual(expected(score, other) + 1e-12);
      }
    }
  });
});
