/**
 * Frequencies and mode shapes of a body that heaves and pitches on two springs, from textbooks, against the model's own
 * equations with its wheels held still, which is what a body on two springs to the ground is.
 */
import { EigenvalueDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { linearBike, linearised } from '../support/linear-bike.ts';

interface Published {
  readonly source: string;
  readonly mass: number;
  readonly inertia: number;
  readonly springs: readonly [number, number];
  readonly arms: readonly [number, number];
  /** rad/s, and the digits that are sure */
  readonly frequencies: readonly [number, number];
  readonly within: number;
  /** |heave ÷ pitch| of each mode; absent when uncoupled */
  readonly ratios?: readonly [number, number];
}

const CASES: readonly Published[] = [
  {
    source: 'Edwards & Penney, Differential Equations, section 7.4 no. 24: 6.13 and 10.31 rad/s (printed)',
    mass: 100,
    inertia: 1000,
    springs: [2000, 2000],
    arms: [6, 4],
    frequencies: [6.131125, 10.315488],
    within: 1e-5,
    ratios: [16.6023, 0.60233],
  },
  {
    source: 'Edwards & Penney no. 23 (from memory, recomputed): 2√10 and 10',
    mass: 100,
    inertia: 1000,
    springs: [2000, 2000],
    arms: [5, 5],
    frequencies: [6.324555, 10],
    within: 1e-5,
  },
  {
    source: 'Edwards & Penney no. 25 (from memory, recomputed): 2√10 and 5√5',
    mass: 100,
    inertia: 800,
    springs: [2000, 2000],
    arms: [5, 5],
    frequencies: [6.324555, 11.18034],
    within: 1e-5,
  },
  {
    source: 'Rao, Mechanical Vibrations, example 5.7 (printed results from memory, recomputed)',
    mass: 1000,
    inertia: 810,
    springs: [18_000, 22_000],
    arms: [1, 1.5],
    frequencies: [5.859292, 9.434089],
    within: 1e-5,
    ratios: [2.6461, 0.3061],
  },
  {
    source:
      'Thomson, Theory of Vibration: 3220 lb, 4 ft radius of gyration (from memory, recomputed): 6.90, 9.06',
    mass: 100,
    inertia: 1600,
    springs: [2400, 2600],
    arms: [4.5, 5.5],
    frequencies: [6.89943, 9.05147],
    within: 1e-4,
    ratios: [14.596, 1.0962],
  },
  {
    source: 'Rao, machine tool problem (inputs printed, recomputed)',
    mass: 1000,
    inertia: 300,
    springs: [3e6, 2e6],
    arms: [0.5, 0.8],
    frequencies: [70.57853, 82.37316],
    within: 1e-4,
    ratios: [5.356, 0.05601],
  },
  {
    source: 'a course problem: car of 1600 kg (inputs printed, recomputed)',
    mass: 1600,
    inertia: 1600 * 0.95 ** 2,
    springs: [38_000, 34_000],
    arms: [1.3, 1.6],
    frequencies: [6.694733, 10.243595],
    within: 1e-5,
    ratios: [17.308, 0.05214],
  },
];

function modes({ mass, inertia, springs, arms }: Published): { frequency: number; ratio: number }[] {
  const end = (spring: number) => ({ spring, tyre: spring * 10, unsprung: mass / 20 });
  const matrix = linearised(
    linearBike({
      mass,
      inertia,
      toFront: arms[0],
      toRear: arms[1],
      front: end(springs[0]),
      rear: end(springs[1]),
      travel: 40,
    }),
  ).subMatrix(4, 5, 0, 1);
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(matrix);
  return realEigenvalues
    .map((value, i) => ({
      frequency: Math.sqrt(-value),
      ratio: eigenvectorMatrix.get(0, i) / eigenvectorMatrix.get(1, i),
    }))
    .sort((a, b) => a.frequency - b.frequency);
}

describe.each(CASES)('$source', (published) => {
  it('has these two frequencies', () => {
    const [slow, fast] = modes(published);
    expect(Math.abs(slow!.frequency - published.frequencies[0])).toBeLessThan(published.within);
    expect(Math.abs(fast!.frequency - published.frequencies[1])).toBeLessThan(published.within);
  });
});

describe.each(CASES.filter((c) => c.ratios !== undefined))('$source', (published) => {
  it('heaves this much per pitch in each mode', () => {
    const [slow, fast] = modes(published);
    expect(Math.abs(slow!.ratio) / published.ratios![0]).toBeCloseTo(1, 4);
    expect(Math.abs(fast!.ratio) / published.ratios![1]).toBeCloseTo(1, 3);
  });

  it('swings about nodes whose distances multiply to the square of the radius of gyration', () => {
    const [slow, fast] = modes(published);
    expect((slow!.ratio * fast!.ratio) / (-published.inertia / published.mass)).toBeCloseTo(1, 5);
  });
});

describe.each(CASES.filter((c) => c.ratios === undefined))('$source', (published) => {
  it('heaves without pitching and pitches without heaving, because k1·l1 = k2·l2', () => {
    const ratios = modes(published).map((mode) => Math.abs(mode.ratio));
    expect(Math.max(...ratios)).toBeGreaterThan(1e3);
    expect(Math.min(...ratios)).toBeLessThan(1e-3);
  });
});

describe('critical speeds of Edwards & Penney no. 24 over a 40 ft washboard', () => {
  it('are 39.03 and 65.67 ft/s', () => {
    const [slow, fast] = modes(CASES[0]!);
    expect((40 * slow!.frequency) / (2 * Math.PI)).toBeCloseTo(39.032, 3);
    expect((40 * fast!.frequency) / (2 * Math.PI)).toBeCloseTo(65.67, 2);
  });
});
