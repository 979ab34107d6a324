/** Seeded, on few trials: the table of tests/bench/trials.mjs has the figures. Bounds are three standard errors wide. */
import { describe, expect, test } from 'vitest';
import { JUDGE } from '../../src/trials/decide.ts';
import { HARM_THERE, NOTHING_THERE, SOMETHING_THERE } from './riders.ts';
import { kept, simulate, type Rider } from './simulate.ts';

const TRIALS = 400;
const within = (rate: number, trials: number): number => 3 * Math.sqrt((rate * (1 - rate)) / trials);
const named = (riders: readonly Rider[], name: string): Rider => riders.find((rider) => rider.name === name)!;

describe('a keep when nothing is there', () => {
  const rates = new Map<Rider, number>();
  const rateOf = (rider: Rider): number => {
    const rate = rates.get(rider) ?? kept(simulate(rider, TRIALS, 11));
    rates.set(rider, rate);
    return rate;
  };
  test.each(NOTHING_THERE)('$name', (rider) => {
    expect(rateOf(rider)).toBeLessThan(0.05 + within(0.05, TRIALS));
  });

  test('over all these riders together at most 5 %', () => {
    const rates = NOTHING_THERE.map(rateOf);
    expect(rates.reduce((sum, rate) => sum + rate, 0) / rates.length).toBeLessThan(0.05);
  });
});

test.each(HARM_THERE.filter((rider) => rider.bothWays !== true))('what harms is not kept: $name', (rider) => {
  expect(kept(simulate(rider, TRIALS, 13))).toBeLessThan(0.005 + within(0.005, TRIALS));
});

test('a gain of one point is kept in six of ten trials of one block', () => {
  const rate = kept(simulate(named(SOMETHING_THERE, 'usual rider, +1'), 1000, 3));
  expect(rate).toBeGreaterThan(0.6 - within(0.6, 1000));
});

test('what is there is found more often the larger it is, and the longer it is looked for', () => {
  const rate = (name: string): number => kept(simulate(named(SOMETHING_THERE, name), 300, 3));
  expect(rate('usual rider, +1')).toBeGreaterThan(rate('usual rider, +0.5'));
  expect(rate('usual rider, +1.5')).toBeGreaterThan(rate('usual rider, +1'));
  expect(rate('usual rider, +1, three blocks')).toBeGreaterThan(rate('usual rider, +1'));
});

test('a judge who took an open trial for a hidden one would keep what is only believed in', () => {
  const { belief, ...believer } = named(NOTHING_THERE, 'open, believes in it by 0.5, three blocks');
  const naive = simulate({ ...believer, step: belief! }, 300, 5);
  expect(kept(naive)).toBeGreaterThan(0.2);
});

test('a judge who does not compare the two directions would keep what is only liked', () => {
  const liker = named(NOTHING_THERE, 'both ways, likes any change by 0.5');
  const blind = simulate(liker, 300, 5, { ...JUDGE, falseKeep: 2, mostTimes: 1 });
  expect(kept(blind)).toBeGreaterThan(0.1);
});
