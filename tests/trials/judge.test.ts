import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { judge } from '../../src/trials/judge.ts';
import type { Trial } from '../../src/trials/trial.ts';
import { change, rode, run } from './invented.ts';

const effect = (trial: Trial, arm: string) => judge(trial).effects.find((one) => one.arm === arm)!;

test('clear and still climbing: go further, and say where', () => {
  const judged = judge(rode('R4 R4 +6 R4 -2 R4'));
  expect(judged).toMatchObject({ verdict: 'further', arm: 'plus', set: 10, next: 12 });
});

test('clear, but the curve has levelled off: keep', () => {
  expect(judge(rode('R5 R5 +6 R5 -1 R5 -1 R5 +6 R5'))).toMatchObject({
    verdict: 'keep',
    arm: 'plus',
    set: 10,
  });
});

test('at the end of the range there is no further', () => {
  const judged = judge(rode('R4 R4 +6 R4 -2 R4', { change: change({ from: 14, to: 16 }) }));
  expect(judged).toMatchObject({ verdict: 'keep', set: 16 });
});

test('the other direction can win', () => {
  expect(judge(rode('R4 R4 +2 R4 -6 R4'))).toMatchObject({
    verdict: 'further',
    arm: 'minus',
    set: 6,
    next: 4,
  });
});

test('worse both ways: back, and the reference is the likeliest best', () => {
  const judged = judge(rode('R6 R6 +3 R6 -3 R6'));
  expect(judged).toMatchObject({ verdict: 'back', arm: 'reference', set: 8 });
  expect(judged.chanceReferenceBest).toBeGreaterThan(0.95);
});

test('steady, and no difference worth having: back', () => {
  expect(judge(rode('R5 R5 +5 R5 -5 R5 -5 R5 +5 R5')).verdict).toBe('back');
});

test('a peak between the reference and one step: half of it', () => {
  const judged = judge(rode('R5 R5 +5 R5 -1 R5 -1 R5 +5 R5'));
  expect(judged).toMatchObject({ verdict: 'half', arm: 'plus', set: 9 });
});

test('a single click cannot be halved', () => {
  const judged = judge(rode('R5 R5 +5 R5 -1 R5 -1 R5 +5 R5', { change: change({ to: 9 }) }));
  expect(judged.verdict).toBe('back');
});

test('a difference lost in scatter: cannot tell, and how many runs would', () => {
  const judged = judge(rode('R4 R4 +6 R5 -4 R4'));
  expect(judged).toMatchObject({ verdict: 'cannot-tell', arm: 'reference', set: 8 });
  expect(judged.more!.runs % 4).toBe(0);
  expect(judged.more!.runs).toBeGreaterThan(0);
});

test('scatter so wide that no day would tell', () => {
  expect(judge(rode('R2 R6 R1 R7 +6 R2 -6 R1 -2 R6 +3 R2')).more).toBeNull();
});

test('both directions liked alike is a liking for changes, not a reason to keep one', () => {
  const judged = judge(rode('R3 R3 +6 R3 -6 R3 -6 R3 +6 R3'));
  expect(['keep', 'further']).not.toContain(judged.verdict);
  expect(judged.liking!.chance).toBeGreaterThan(0.95);
  expect(judged.liking!.mean).toBeCloseTo(3, 6);
});

test('against a sham, better than both reference and sham: keep', () => {
  const atStop = { change: change({ from: 0, to: 2 }) };
  expect(judge(rode('R3 R3 +6 R3 S3 R3', atStop))).toMatchObject({ verdict: 'keep', arm: 'plus', set: 2 });
  expect(judge(rode('R3 R3 +6 R3 S6 R3', atStop)).verdict).not.toBe('keep');
  expect(
    judge(rode('R3 R3 +6 R3 S3 R3', atStop)).effects.find((one) => one.arm === 'sham')!.chanceBest,
  ).toBeUndefined();
});

test('a straight drift changes no effect', () => {
  const flat = rode('R4 R4 +6 R4 -2 R4');
  const drifting: Trial = {
    ...flat,
    ridden: flat.ridden.map((one, i) => ({
      ...one,
      ratings: Object.fromEntries(
        Object.entries(one.ratings).map(([feeling, value]) => [feeling, value + 0.4 * i]),
      ),
    })),
  };
  expect(effect(drifting, 'plus').difference).toBeCloseTo(effect(flat, 'plus').difference, 9);
  expect(effect(drifting, 'minus').difference).toBeCloseTo(-2, 9);
  expect(judge(drifting).drift!.mean).toBeCloseTo(0.4, 9);
});

test('what is missing is said, and how many runs are left', () => {
  expect(judge(rode('R4 R4'))).toMatchObject({
    verdict: 'cannot-tell',
    missing: 'change',
    more: { runs: 4 },
  });
  expect(judge(rode('R4 R4 +6'))).toMatchObject({ missing: 'reference-after', more: { runs: 3 } });
  const apart = rode('R4 R4 +6 R4 -2 R4');
  const patchy = apart.ridden.map((one, i) =>
    i === 2 ? { ...one, ratings: { grip: 6 } } : { ...one, ratings: { calm: 4 } },
  );
  expect(judge({ ...apart, ridden: patchy }).missing).toBe('common-feeling');
});

test('one direction alone can be given up, but never kept', () => {
  expect(judge(rode('R4 R4 +7 R4 +7 R4 +7 R4')).verdict).toBe('cannot-tell');
  expect(judge(rode('R5 R5 +2 R5 +2 R5')).verdict).toBe('back');
});

test('run times are compared, but do not decide', () => {
  const runs = [
    run('reference', 4, { seconds: 100 }),
    ...['R', '+', 'R', '-', 'R'].map((arm) => {
      const name = arm === '+' ? 'plus' : arm === '-' ? 'minus' : 'reference';
      return run(name, name === 'plus' ? 6 : name === 'minus' ? 2 : 4, {
        seconds: name === 'plus' ? 112 : 100,
      });
    }),
  ];
  const judged = judge({ ...rode('R4'), ridden: runs });
  expect(judged.verdict).toBe('further');
  expect(judged.times!.find((time) => time.arm === 'plus')!.difference).toBeCloseTo(12, 6);
  expect(judged.times!.find((time) => time.arm === 'plus')!.chanceFaster).toBeLessThan(0.05);
});

test('chances lie in 0..1, those of being best add up to 1, and naming the directions the other way round mirrors all', () => {
  const rating = fc.integer({ min: 1, max: 7 });
  fc.assert(
    fc.property(fc.array(rating, { minLength: 6, maxLength: 6 }), ([a, b, c, d, e, f]) => {
      const judged = judge(rode(`R${a} R${b} +${c} R${d} -${e} R${f}`));
      const mirrored = judge(rode(`R${a} R${b} -${c} R${d} +${e} R${f}`));
      const best = judged.effects.reduce((sum, one) => sum + one.chanceBest!, judged.chanceReferenceBest!);
      expect(best).toBeCloseTo(1, 6);
      for (const one of judged.effects) {
        expect(one.chanceBetter).toBeGreaterThanOrEqual(0);
        expect(one.chanceBetter).toBeLessThanOrEqual(1);
        expect(one.chanceBest!).toBeLessThanOrEqual(one.chanceBetter + 1e-6);
      }
      const names = { plus: 'minus', minus: 'plus', reference: 'reference', sham: 'sham' } as const;
      expect(mirrored.verdict).toBe(judged.verdict);
      expect(mirrored.arm).toBe(names[judged.arm]);
    }),
    { numRuns: 60 },
  );
});
