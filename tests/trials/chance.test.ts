import { expect, test } from 'vitest';
import { chanceAbove, chanceBest, interval, tCdf, tQuantile } from '../../src/trials/chance.ts';
import { contrast, posterior, type Posterior } from '../../src/trials/model.ts';
import { ridden } from './invented.ts';
import { mulberry32 } from './simulate.ts';

const post: Posterior = {
  arms: ['minus', 'plus'],
  runs: [2, 2],
  mean: [-0.4, 0.6],
  scale: [[0.5, 0.2], [0.2, 0.9]], // prettier-ignore
  df: 5,
  drift: { mean: 0, scale: 0.1 },
  noise: 0.7,
};

/** Shares of draws from the same multivariate t, as a second way to the chances. */
function drawn(draws: number): { plus: number; minus: number; reference: number } {
  const random = mulberry32(99);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const best = { plus: 0, minus: 0, reference: 0 };
  for (let i = 0; i < draws; i++) {
    let chi = 0;
    for (let k = 0; k < post.df; k++) chi += normal() ** 2;
    const stretch = Math.sqrt(post.df / chi);
    const [za, zb] = [normal(), normal()];
    const minus = post.mean[0]! + stretch * Math.sqrt(0.5) * za;
    const plus = post.mean[1]! + stretch * ((0.2 / Math.sqrt(0.5)) * za + Math.sqrt(0.9 - 0.04 / 0.5) * zb);
    best[plus > 0 && plus > minus ? 'plus' : minus > 0 ? 'minus' : 'reference'] += 1 / draws;
  }
  return best;
}

test('the chance of being best agrees with draws from the posterior', () => {
  const exact = chanceBest(post);
  const sampled = drawn(200_000);
  for (const arm of ['plus', 'minus', 'reference'] as const) expect(exact[arm]).toBeCloseTo(sampled[arm], 2);
});

test('with one arm only, being best is being better than the reference', () => {
  const one: Posterior = { ...post, arms: ['plus'], runs: [2], mean: [0.6], scale: [[0.9]] };
  expect(chanceBest(one).plus).toBeCloseTo(chanceAbove(one, { plus: 1 }), 12);
});

test('a contrast adds means and variances with their covariance', () => {
  const { mean, scale } = contrast(post, { plus: 1, minus: -1 });
  expect(mean).toBeCloseTo(1, 12);
  expect(scale ** 2).toBeCloseTo(0.9 + 0.5 - 2 * 0.2, 12);
});

test('no difference is better and worse with the same chance, to the last bit', () => {
  for (const df of [1, 3, 7.5, 1e6]) {
    expect(tCdf(0, df)).toBe(0.5);
    expect(tQuantile(0.5, df)).toBe(0);
    expect(tCdf(1, df) + tCdf(-1, df)).toBeCloseTo(1, 7);
    expect(tCdf(1, df)).toBeGreaterThan(0.7);
  }
});

test('the interval leaves half of what it does not cover on each side', () => {
  const { low, high } = interval(contrast(post, { plus: 1 }), 0.9);
  expect(chanceAbove(post, { plus: 1 }, low)).toBeCloseTo(0.95, 6);
  expect(chanceAbove(post, { plus: 1 }, high)).toBeCloseTo(0.05, 6);
});

test('a run without weight counts for nothing', () => {
  const arm = 'reference' as const;
  const rest = ridden('R4 +6 R5 +7 R5').map((run) => ({ arm: run.arm, score: run.ratings['grip']! }));
  const without = posterior(rest, { sd: 0.5, weight: 3 })!;
  const nothing = posterior([{ arm, score: 1, weight: 1e-9 }, ...rest], { sd: 0.5, weight: 3 })!;
  expect(nothing.mean[0]).toBeCloseTo(without.mean[0]!, 6);
});
