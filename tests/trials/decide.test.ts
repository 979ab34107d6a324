/** Verdicts on posteriors made by hand: what the judge believes of both steps is written down, not ridden for. */
import { describe, expect, it } from 'vitest';
import { decide, JUDGE, type Decision } from '../../src/trials/decide.ts';
import type { Posterior } from '../../src/trials/model.ts';
import type { Arm } from '../../src/trials/trial.ts';
import { change } from './invented.ts';

const ARMS: readonly [Arm, Arm, Arm] = [
  { name: 'reference', set: 8 },
  { name: 'plus', set: 10 },
  { name: 'minus', set: 6 },
];
/** Effects of both steps in points, each with its own scatter; nearly normal, so that chances can be read off a table. */
const believed = (plus: [number, number], minus: [number, number], runs = [2, 2]): Posterior => ({
  arms: ['minus', 'plus'],
  runs: [runs[1]!, runs[0]!],
  mean: [minus[0], plus[0]],
  scale: [[minus[1] ** 2, 0], [0, plus[1] ** 2]], // prettier-ignore
  df: 1000,
  drift: { mean: 0, scale: 0.1 },
  noise: 0.5,
});
const verdict = (post: Posterior, over = {}): Decision => decide(post, ARMS, change(over), JUDGE);

describe('half a step', () => {
  // The parabola through the reference and both steps is worth ⅜·plus − ⅛·minus at half of plus.
  it('is taken where the curve peaks between, above the reference and above the whole step', () => {
    const post = believed([0.24, 0.3], [-3, 0.1]);
    expect(verdict(post)).toEqual({ verdict: 'half', arm: 'plus', set: 9 });
  });

  it('is not taken where the whole step may be as good', () => {
    const post = believed([0.9, 0.6], [-3, 0.1]);
    expect(verdict(post)).toEqual({ verdict: 'cannot-tell', arm: 'reference', set: 8 });
  });

  it('is not taken where the reference may be as good', () => {
    const post = believed([-2, 0.1], [-5, 0.1]);
    expect(verdict(post)).toEqual({ verdict: 'back', arm: 'reference', set: 8 });
  });

  it('is not guessed of a side that nobody rode', () => {
    expect(verdict(believed([0.24, 0.3], [-3, 0.1], [2, 0])).verdict).toBe('cannot-tell');
  });
});

describe('a step that is kept', () => {
  it('is better than the reference and than the other step, in either of the two places', () => {
    expect(verdict(believed([1, 0.2], [-1, 0.2]))).toMatchObject({ arm: 'plus', set: 10 });
    expect(verdict(believed([-1, 0.2], [1, 0.2]))).toMatchObject({ arm: 'minus', set: 6 });
  });

  it('is not kept where the other step feels as good: any change is liked', () => {
    expect(verdict(believed([1, 0.2], [0.8, 0.2])).verdict).toBe('cannot-tell');
  });

  it('is ridden further where the curve still rises, up to the limit and no further', () => {
    // Twice as far the parabola is worth 3·plus + minus.
    const rising = believed([1, 0.1], [-1, 0.1]);
    expect(verdict(rising)).toMatchObject({ verdict: 'further', arm: 'plus', set: 10, next: 12 });
    expect(verdict(rising, { max: 11 })).toMatchObject({ verdict: 'further', next: 11 });
    expect(verdict(rising, { max: 10 })).toEqual({ verdict: 'keep', arm: 'plus', set: 10 });
    expect(verdict(believed([1, 0.1], [-2.5, 0.1]))).toEqual({ verdict: 'keep', arm: 'plus', set: 10 });
  });
});

describe('the way back', () => {
  it('is taken where no step is likely to be worth having, and not while one may be', () => {
    // Half a point is worth having: a chance of one in twenty is too little, one in five is not.
    expect(verdict(believed([0, 0.3], [0, 0.3])).verdict).toBe('back');
    expect(verdict(believed([0, 0.6], [0, 0.3])).verdict).toBe('cannot-tell');
  });

  it('is not taken before anything was ridden', () => {
    expect(verdict(believed([0, 0.1], [0, 0.1], [0, 0])).verdict).toBe('cannot-tell');
  });
});
