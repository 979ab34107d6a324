import { describe, expect, test } from 'vitest';
import { JUDGE } from '../../src/trials/decide.ts';
import { NOTHING_THERE, SOMETHING_THERE } from './riders.ts';
import { kept, simulate } from './simulate.ts';

const TRIALS = 500;
/** 5 % and three standard errors of a rate measured on 500 trials. */
const BOUND = 0.05 + 3 * Math.sqrt((0.05 * 0.95) / TRIALS);

describe('a keep when nothing is there, seeded', () => {
  test.each(NOTHING_THERE)('$name', (rider) => {
    expect(kept(simulate(rider, TRIALS, 11))).toBeLessThan(BOUND);
  });

  test('over all these riders together at most 5 %', () => {
    const rates = NOTHING_THERE.map((rider) => kept(simulate(rider, TRIALS, 12)));
    expect(rates.reduce((sum, rate) => sum + rate, 0) / rates.length).toBeLessThan(0.05);
  });
});

const rate = (name: string) =>
  kept(
    simulate(
      SOMETHING_THERE.find((rider) => rider.name === name)!,
      300,
      3,
    ),
  );

test('what is there is found more often the larger it is, and the longer it is looked for', () => {
  expect(rate('+1 / -1')).toBeGreaterThan(rate('+0.5 / -0.5'));
  expect(rate('+1.5 / -1.5')).toBeGreaterThan(rate('+1 / -1'));
  expect(rate('+1.5 / -1.5, three looks')).toBeGreaterThan(0.75);
});

test('a judge who does not compare the two directions would keep what is only liked: the guard matters', () => {
  const liker = NOTHING_THERE.find((rider) => rider.name === 'likes the second run of a pair by 1')!;
  const blind = simulate(liker, 300, 5, { ...JUDGE, falseKeep: 2, mostBlocks: 0 });
  expect(kept(blind)).toBeGreaterThan(0.05);
});
