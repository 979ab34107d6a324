import { describe, expect, it } from 'vitest';
import { priorOf, update } from '../../src/diagnosis/belief.ts';
import { conflict, fitOf as fitOfSums, type Fit } from '../../src/diagnosis/fit.ts';
import { posteriorOf } from '../../src/diagnosis/fast/class-marginals.ts';
import type { Belief, Evidence } from '../../src/diagnosis/belief.ts';
import type { Model } from '../../src/diagnosis/model.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { network, yesNo } from '../support/network.ts';

// Cases worked by hand (constructed, not published). One cause, prior 1/2; two questions with leak 0.1 and link 8/9,
// so that P(yes | off) = 0.9 and P(yes | not) = 0.1.
const model = buildModel(
  network({ priors: [0.5], questions: [yesNo('a', 0.1, { 0: 8 / 9 }), yesNo('b', 0.1, { 0: 8 / 9 })] }),
  0,
);
const yes = (question: number) => ({ question, answer: 1, sure: 1 });
const no = (question: number) => ({ question, answer: 0, sure: 1 });
const after = (evidence: ReturnType<typeof yes>[]) => update(model, priorOf(model), evidence);

const fitOf = (m: Model, belief: Belief, story: Evidence[], strange: number): Fit | undefined =>
  fitOfSums(m, posteriorOf(m, belief), story, { strange, explains: 0.5, 'likely-pair': 0.05 });

describe("Jensen's conflict measure", () => {
  it('is negative when two answers speak for the same thing: log2(0.25 / 0.41)', () => {
    // P(a) = P(b) = 0.5; P(a, b) = 0.5·0.81 + 0.5·0.01 = 0.41.
    expect(conflict(model, priorOf(model), [yes(0), yes(1)])).toBeCloseTo(Math.log2(0.25 / 0.41), 12);
  });
  it('is positive when they contradict: log2(0.25 / 0.09)', () => {
    expect(conflict(model, priorOf(model), [yes(0), no(1)])).toBeCloseTo(Math.log2(0.25 / 0.09), 12);
  });
});

describe('the fit of a story', () => {
  it('equals the value worked by hand for one answer', () => {
    // P(off | yes) = 0.9. Given off the answer has 0.9 / 0.1: surprise log2(1/0.9) = s, entropy H, variance V; given
    // not off, yes has 0.1: surprise log2(10). The entropy and the variance are the same in both.
    const s9 = -Math.log2(0.9);
    const s1 = -Math.log2(0.1);
    const H = 0.9 * s9 + 0.1 * s1;
    const V = 0.9 * s9 ** 2 + 0.1 * s1 ** 2 - H ** 2;
    const expected = (0.9 * (s9 - H) + 0.1 * (s1 - H)) / Math.sqrt(V);
    expect(fitOf(model, after([yes(0)]), [yes(0)], 1.3)!.z).toBeCloseTo(expected, 12);
  });
  it('is worse for a contradiction than for agreement', () => {
    const good = fitOf(model, after([yes(0), yes(1)]), [yes(0), yes(1)], 1.3)!.z;
    const bad = fitOf(model, after([yes(0), no(1)]), [yes(0), no(1)], 1.3)!.z;
    expect(bad).toBeGreaterThan(good + 1);
    // Only what is stranger than asked for is asked again.
    const reask = (strange: number) => fitOf(model, after([yes(0), no(1)]), [yes(0), no(1)], strange)!.reask;
    expect(reask(bad - 0.01)).toHaveLength(2);
    expect(reask(bad + 0.01)).toEqual([]);
  });
  it('names two answers that no one cause brings, the most surprising ones', () => {
    const many = buildModel(
      network({
        priors: [0.1, 0.1],
        questions: [0, 1, 2, 3]
          .map((i) => yesNo(`q${i}`, 0.02, { 0: 0.95 }))
          .concat([yesNo('odd', 0.01, { 1: 0.9 }), yesNo('odd2', 0.01, { 1: 0.9 })]),
      }),
      0.02,
    );
    const reask = (story: Evidence[]) =>
      fitOf(many, update(many, priorOf(many), story), story, -9)!.reask.toSorted();
    // The first cause brings the others, and not this one.
    expect(reask([yes(0), yes(1), yes(2), no(3)])).toContain(3);
    // The second cause alone leaves 3 at "no" and brings 4, so these two do not contradict, however strange both are.
    expect(reask([yes(0), yes(1), yes(2), no(3), yes(4), no(5)])).toEqual([4, 5]);
  });

  // Two causes, each behind one question; P(yes | its cause) = 0.9 and P(yes | not) = 0.1.
  const apart = (both?: number) =>
    buildModel(
      network({
        priors: both === undefined ? [0.1, 0.1] : [0.1, 0.1, both],
        questions: [0, 1].map((i) =>
          yesNo(`q${i}`, 0.1, { [i]: 8 / 9, ...(both === undefined ? {} : { 2: 8 / 9 }) }),
        ),
      }),
      0,
    );
  const named = (m: Model, likely: number) =>
    fitOfSums(m, posteriorOf(m, update(m, priorOf(m), [yes(0), yes(1)])), [yes(0), yes(1)], {
      strange: -9,
      explains: 0.5,
      'likely-pair': likely,
    })!.reask;
  it('names no two answers that one cause brings, however rare it is', () => {
    expect(named(apart(1e-6), 1)).toEqual([]);
    expect(named(apart(), 1)).toEqual([0, 1]);
  });
  it('names no two answers that a likely pair of causes brings, one each', () => {
    // Weights of the sets, over 0.81: nothing 0.01, each alone 0.09/9, both 0.81/81: a quarter of the whole is both.
    const pair = 0.25;
    expect(named(apart(), pair - 0.01)).toEqual([]);
    expect(named(apart(), pair + 0.01)).toEqual([0, 1]);
  });
  it('says nothing when nothing was answered', () =>
    expect(fitOf(model, after([]), [], 1.3)).toBeUndefined());
});
