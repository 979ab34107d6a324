import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { feltOf, feltTable, summary } from '../bench/felt.mjs';
import { AS_THE_MODEL, drawTruth, makeRider, seeded } from '../../src/evaluation/riders.ts';
import { interviewRider } from '../../src/evaluation/simulate.ts';
import { modelOfTwo } from '../support/base-rules.ts';

describe('how a first change feels', () => {
  it('is as often better, and worse, as was said (seeded, bikes as the prior has them)', () => {
    // Of at most two causes at once: an interview costs half.
    const model = modelOfTwo();
    const bench = prepareBike(model);
    const { trust, slip } = model.rules.numbers;
    const manners = {
      ...AS_THE_MODEL,
      topicWrong: trust.recall,
      misread: trust.stand,
      slips: slip.recall / 2,
    };
    const random = seeded(21);
    const runs = Array.from({ length: 70 }, () => {
      const own = seeded(random());
      const rider = makeRider(model, drawTruth(model, bench.prior, own), manners, own);
      return interviewRider(model, bench, rider, 'gain', own, 20);
    });
    for (const report of ['better', 'worse'] as const) {
      const { count, said, real, error } = summary(feltOf(model, bench, runs, report));
      expect(count).toBeGreaterThan(12);
      // Three standard errors; a claim of "helps" in place of "feels better" is off by far more.
      expect(Math.abs(said - real)).toBeLessThan(3 * error);
      expect(error).toBeLessThan(0.08);
    }
  });
  it('by hand: bins by what was said, and the error of the difference', () => {
    const felt = [
      { said: 0.62, real: 0.8 },
      { said: 0.66, real: 0.4 },
      { said: 1, real: 0.8 },
    ];
    const [low, high] = feltTable(felt);
    // Differences +0.18 and −0.26: mean −0.04, deviation 0.22, over √2.
    expect(low).toMatchObject({ from: expect.closeTo(0.6, 12), count: 2, said: expect.closeTo(0.64, 12) });
    expect(low!.real).toBeCloseTo(0.6, 12);
    expect(low!.error).toBeCloseTo(0.22 / Math.SQRT2, 12);
    expect(high).toMatchObject({ from: expect.closeTo(0.9, 12), count: 1, error: 0 });
  });
});
