/** Verdicts on posteriors made by hand: what the judge believes of both steps is written down, not ridden for. */
import { describe, expect, it } from 'vitest';
import {
  chanceWorth,
  decide,
  JUDGE,
  measuredOf,
  type Decision,
  type Tried,
} from '../../src/trials/decide.ts';
import type { Posterior } from '../../src/trials/model.ts';
import { change, CHANCES, EXPECTED, planned } from './invented.ts';

/** Effects in points, each with its own scatter; nearly normal, so that chances can be read off a table. */
const believed = (plus: [number, number], minus?: [number, number], runs = [3, 2]): Posterior => ({
  arms: minus === undefined ? ['plus'] : ['minus', 'plus'],
  runs: minus === undefined ? [runs[0]!] : [runs[1]!, runs[0]!],
  mean: minus === undefined ? [plus[0]] : [minus[0], plus[0]],
  scale: minus === undefined ? [[plus[1] ** 2]] : [[minus[1] ** 2, 0], [0, plus[1] ** 2]], // prettier-ignore
  df: 1000,
  drift: { mean: 0, scale: 0.1 },
  noise: 0.5,
});
const trial = (bothWays: boolean, over: Partial<Tried> = {}, range = {}): Tried => ({
  ...planned({ bothWays, change: change(range) }),
  hidden: true,
  ...over,
});
const one = (plus: [number, number], looks = 1, over: Partial<Tried> = {}): Decision =>
  decide(believed(plus), trial(false, over), looks, JUDGE);
const two = (plus: [number, number], minus: [number, number], looks = 1, range = {}): Decision =>
  decide(believed(plus, minus), trial(true, {}, range), looks, JUDGE);

describe('one step against the reference', () => {
  it('is kept where it is worth having with nine chances in ten, and not below', () => {
    // Chances .7 / .05 and ± 0.5: P(effect > 0.25) passes 0.9 between 0.9 and 1.1 points.
    expect(one([1.1, 0.5])).toEqual({ verdict: 'keep', arm: 'plus', set: 10 });
    expect(one([0.9, 0.5])).toEqual({ verdict: 'cannot-tell', arm: 'reference', set: 8 });
    expect(chanceWorth(believed([1.1, 0.5]), trial(false), 'plus', 0.25)).toBeGreaterThan(0.9);
    expect(chanceWorth(believed([0.9, 0.5]), trial(false), 'plus', 0.25)).toBeLessThan(0.9);
  });

  it('asks for more with every further look: an error of 1/8 at the second, 1/27 at the third', () => {
    const just = (sure: number): [number, number] => {
      let points = -1;
      while (chanceWorth(believed([points, 0.5]), trial(false), 'plus', JUDGE.worth) < sure) points += 0.001;
      return [points, 0.5];
    };
    const share = 1 - JUDGE.sure;
    for (const looks of [1, 2, 3]) {
      const on = (effect: [number, number]) =>
        decide(believed(effect, undefined, [3 * looks]), trial(false), looks, JUDGE).verdict;
      expect(on(just(1 - share / looks ** 3))).toBe('keep');
      expect(on(just(1 - (1.1 * share) / looks ** 3))).not.toBe('keep');
    }
  });

  it('asks for more where two runs of the step are all there is, and a second look is allowed what is left', () => {
    const just = (sure: number): [number, number] => {
      let points = -1;
      while (chanceWorth(believed([points, 0.5]), trial(false), 'plus', JUDGE.worth) < sure) points += 0.001;
      return [points, 0.5];
    };
    const [first, second] = JUDGE.few.sure;
    expect(1 - first + (1 - second)).toBeLessThan(1 - JUDGE.sure);
    for (const [looks, sure] of [
      [1, first],
      [2, second],
      [3, 1 - (1 - second) / 8],
    ] as const) {
      const on = (effect: [number, number]) =>
        decide(believed(effect, undefined, [2 * looks]), trial(false), looks, JUDGE).verdict;
      expect(on(just(sure))).toBe('keep');
      expect(on(just(1 - 1.1 * (1 - sure)))).not.toBe('keep');
    }
  });

  it('of an open trial asks for less at the first look, where the diagnosis said what belief adds', () => {
    const [first] = JUDGE.few.open;
    const known = { hidden: false } as const;
    const just = (over: Partial<Tried>): [number, number] => {
      let points = -1;
      while (chanceWorth(believed([points, 0.5]), trial(false, over), 'plus', JUDGE.worth) < first)
        points += 0.001;
      return [points, 0.5];
    };
    const on = (over: Partial<Tried>): Decision['verdict'] =>
      decide(believed(just(over), undefined, [2]), trial(false, over), 1, JUDGE).verdict;
    expect(on(known)).toBe('keep');
    expect(on({})).toBe('cannot-tell');
    const { expected, ...bare } = trial(false, known);
    expect(expected).toBeDefined();
    expect(decide(believed([0.25 + 0.5 * 1.6, 0.5], undefined, [2]), bare, 1, JUDGE).verdict).toBe(
      'cannot-tell',
    );
  });

  it('is sent back where it is hardly worth having, and not while it may be', () => {
    expect(one([-0.2, 0.3]).verdict).toBe('back');
    const unsure = believed([0, 0.3]);
    expect(chanceWorth(unsure, trial(false), 'plus', 0.25)).toBeGreaterThan(0.1);
    expect(chanceWorth(unsure, trial(false), 'plus', 0.25)).toBeLessThan(0.3);
    expect(decide(unsure, trial(false), 1, JUDGE).verdict).toBe('cannot-tell');
    expect(decide(believed([0, 0.1], undefined, [0]), trial(false), 1, JUDGE).verdict).toBe('cannot-tell');
  });

  it('waits for a second block where the ratings scatter', () => {
    const noisy = (noise: number): Posterior => ({ ...believed([3, 0.3]), noise });
    expect(decide(noisy(0.78), trial(false), 1, JUDGE)).toMatchObject({
      verdict: 'cannot-tell',
      scatter: true,
    });
    expect(decide(noisy(0.77), trial(false), 1, JUDGE).verdict).toBe('keep');
    expect(decide(noisy(0.78), trial(false), 2, JUDGE).verdict).toBe('keep');
  });

  it('goes back however the ratings scatter, once the whole interval is worse', () => {
    const noisy = (points: number): Posterior => ({ ...believed([points, 1]), noise: 0.86 });
    // 1.96 standard errors below nothing.
    expect(decide(noisy(-2), trial(false), 1, JUDGE)).toMatchObject({ verdict: 'back', set: 8 });
    expect(decide(noisy(-1.9), trial(false), 1, JUDGE)).toMatchObject({
      verdict: 'cannot-tell',
      scatter: true,
    });
  });

  it('counts for less where the rider knew it, and as known where nobody said', () => {
    expect(one([1.2, 0.4]).verdict).toBe('keep');
    expect(one([1.2, 0.4], 1, { hidden: false }).verdict).toBe('cannot-tell');
    const { hidden, ...unsaid } = trial(false);
    expect(hidden).toBe(true);
    expect(decide(believed([1.2, 0.4]), unsaid, 1, JUDGE).verdict).toBe('cannot-tell');
  });

  it('of a trial that says nothing of chances goes by the ratings alone', () => {
    const { chances, expected, ...bare } = trial(false);
    expect([chances, expected]).toEqual([CHANCES, EXPECTED]);
    // P(N(0.9, 0.5²) > 0.25) = Φ(1.3) = 0.9032.
    expect(chanceWorth(believed([0.9, 0.5]), bare, 'plus', 0.25)).toBeCloseTo(0.9032, 3);
  });
});

describe('what is measured', () => {
  it('becomes a normal distribution of the same variance', () => {
    const post = { ...believed([1, 0.5]), df: 5 };
    expect(measuredOf(post, trial(false), 'plus').error).toBeCloseTo(0.5 * Math.sqrt(5 / 3), 12);
  });

  it('of the other direction loses nothing to belief in the advised one', () => {
    const post = believed([1, 0.5], [1, 0.5]);
    const open = trial(true, { hidden: false });
    expect(measuredOf(post, open, 'minus').points).toBe(1);
    expect(measuredOf(post, open, 'plus').points).toBeCloseTo(0.6, 12);
  });
});

describe('both ways', () => {
  it('the better one is kept, in either of the two places', () => {
    expect(two([1.5, 0.2], [-1, 0.2])).toMatchObject({ arm: 'plus', set: 10 });
    expect(two([-1.5, 0.2], [2, 0.2])).toMatchObject({ arm: 'minus', set: 6 });
  });

  it('what helps one way is taken to harm the other', () => {
    const chances = { helps: 0.05, harms: 0.8 };
    const post = believed([0, 0.5], [0.8, 0.5]);
    const advised = trial(true);
    const against = trial(true, { chances });
    expect(chanceWorth(post, against, 'minus', 0.25)).toBeGreaterThan(
      chanceWorth(post, advised, 'minus', 0.25),
    );
  });

  it('is not kept where the other step feels as good: any change is liked', () => {
    expect(two([1.5, 0.2], [1.3, 0.2]).verdict).toBe('cannot-tell');
  });

  it('in the comparison of the two allows half the error, and less with every look', () => {
    // Plus beats minus by d with a spread of 0.2·√2: P = Φ(d / 0.2828); 0.95 at 0.4652, 0.99375 at 0.7071.
    expect(two([2, 0.2], [2 - 0.48, 0.2]).verdict).toMatch(/keep|further/);
    expect(two([2, 0.2], [2 - 0.45, 0.2]).verdict).toBe('cannot-tell');
    expect(two([2, 0.2], [2 - 0.69, 0.2], 2).verdict).toBe('cannot-tell');
    expect(two([2, 0.2], [2 - 0.73, 0.2], 2).verdict).toMatch(/keep|further/);
  });

  it('asks no more of two runs of a step than of three: the comparison guards it already', () => {
    for (const runs of [3, 2]) {
      const post = believed([1.1, 0.5], [-1, 0.1], [runs, runs]);
      expect(chanceWorth(post, trial(true), 'plus', JUDGE.worth)).toBeLessThan(JUDGE.few.sure[0]);
      expect(decide(post, trial(true), 1, JUDGE)).toMatchObject({ arm: 'plus' });
    }
  });

  it('is not kept while the other way was not ridden', () => {
    expect(decide(believed([2, 0.2], [0, 0.2], [3, 0]), trial(true), 1, JUDGE).verdict).toBe('cannot-tell');
  });

  it('is ridden further where the curve still rises, up to the limit and no further', () => {
    // Twice as far the parabola is worth 3·plus + minus.
    const rising: [[number, number], [number, number]] = [
      [1.5, 0.1],
      [-1, 0.1],
    ];
    expect(two(...rising)).toMatchObject({ verdict: 'further', arm: 'plus', set: 10, next: 12 });
    expect(two(...rising, 1, { max: 11 })).toMatchObject({ verdict: 'further', next: 11 });
    expect(two(...rising, 1, { max: 10 })).toEqual({ verdict: 'keep', arm: 'plus', set: 10 });
    expect(two([1.5, 0.1], [-3.5, 0.1])).toEqual({ verdict: 'keep', arm: 'plus', set: 10 });
  });

  it('takes half a step where the curve peaks between, above the reference and above the whole step', () => {
    // At half of plus the parabola is worth ⅜·plus − ⅛·minus.
    expect(two([0.24, 0.3], [-3, 0.1])).toEqual({ verdict: 'half', arm: 'plus', set: 9 });
    expect(two([0.9, 0.6], [-3, 0.1]).verdict).toBe('cannot-tell');
    expect(two([-2, 0.1], [-5, 0.1])).toEqual({ verdict: 'back', arm: 'reference', set: 8 });
    expect(decide(believed([0.24, 0.3], [-3, 0.1], [3, 0]), trial(true), 1, JUDGE).verdict).toBe(
      'cannot-tell',
    );
  });
});

describe('a sham of a trial planned before', () => {
  const old: Tried = {
    arms: [
      { name: 'reference', set: 0 },
      { name: 'plus', set: 2 },
      { name: 'sham', set: 0 },
    ],
    change: change({ from: 0, to: 2 }),
  };
  const ridden = (plus: number, sham: number): Posterior => ({
    ...believed([plus, 0.2], [sham, 0.2]),
    arms: ['plus', 'sham'],
    mean: [plus, sham],
  });

  it('is no setting to keep, and what is no better than it is not kept either', () => {
    expect(decide(ridden(1.5, 0), old, 1, JUDGE)).toMatchObject({ verdict: 'keep', arm: 'plus', set: 2 });
    // One candidate: nine chances in ten against the sham, 0.3625 points here; two would ask for 0.4652.
    expect(decide(ridden(2, 1.58), old, 1, JUDGE)).toMatchObject({ arm: 'plus' });
    expect(decide(ridden(1.5, 1.4), old, 1, JUDGE).verdict).toBe('cannot-tell');
    expect(decide(ridden(0, 1.5), old, 1, JUDGE).verdict).not.toMatch(/keep|further/);
  });
});
