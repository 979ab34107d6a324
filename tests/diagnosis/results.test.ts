import { describe, expect, it } from 'vitest';
import { buildModel } from '../../src/diagnosis/model.ts';
import { findSet } from '../../src/diagnosis/hypotheses.ts';
import {
  afterTrial,
  beforeTrial,
  outcomeProbability,
  reach,
  tabulateTrial,
  type ChangeEffect,
  seenAs,
} from '../../src/diagnosis/results.ts';
import { network } from '../support/network.ts';

const model = buildModel(network({ priors: [0.2, 0.2], questions: [] }));
const at = (...set: number[]): number => findSet(model.space, set);
const { helped, nothing, harmed } = model.rules.numbers.results;

/** Cures the first cause and nothing else. */
const cure = (lasts?: number): ChangeEffect => ({
  cures: Float64Array.from([1, 0]),
  brings: Float64Array.from([0, 0]),
  ...(lasts === undefined ? {} : { lasts }),
});

describe('belief after a trial', () => {
  // By hand: 0.6 on the first cause, 0.4 on the second; better is reported with helped.better and nothing.better.
  const start = new Float64Array(model.space.size);
  start[at(0)] = 0.6;
  start[at(1)] = 0.4;
  const total = 0.6 * helped.better + 0.4 * nothing.better;
  const first = (0.6 * helped.better) / total;

  it('weighs the causes by how likely they make the report, when the change was taken back', () => {
    const weights = afterTrial(start, tabulateTrial(model, cure(), { outcome: 'better' }, false));
    expect(weights[at(0)]).toBeCloseTo(first, 12);
    expect(weights[at()]).toBe(0);
  });

  it('goes by the ratings where there are any, and not by the word', () => {
    const seen = seenAs(model.rules.numbers.trial, { points: 1.3, error: 0.4 });
    for (const outcome of ['better', 'worse'] as const) {
      const weights = afterTrial(
        start,
        tabulateTrial(model, cure(), { outcome, points: 1.3, error: 0.4 }, false),
      );
      expect(weights[at(0)]).toBeCloseTo((0.6 * seen.helped) / (0.6 * seen.helped + 0.4 * seen.nothing), 12);
    }
  });

  it('takes out what was cured, when the change was kept', () => {
    const weights = afterTrial(start, tabulateTrial(model, cure(), { outcome: 'better' }, true));
    expect(weights[at(0)]).toBe(0);
    expect(weights[at()]).toBeCloseTo(first, 12);
    expect(weights[at(1)]).toBeCloseTo(1 - first, 12);
  });

  it('leaves in what one step may not have cured for good', () => {
    const weights = afterTrial(start, tabulateTrial(model, cure(0.7), { outcome: 'better' }, true));
    expect(weights[at(0)]).toBeCloseTo(0.3 * first, 12);
    expect(weights[at()]).toBeCloseTo(0.7 * first, 12);
  });

  it('lies between helped, harmed and nothing, by how far it cures and spoils at once', () => {
    // Cures the first cause by 0.6 and drives the second deeper by 0.5: both, in the set of the two.
    const change = { cures: Float64Array.from([0.6, 0]), brings: Float64Array.from([0, 0.5]) };
    expect(reach(model, change, [0, 1])).toEqual({ cure: 0.6, spoil: 0.5 });
    const [help, harm] = [0.6 * 0.5, 0.5 * 0.4];
    for (const outcome of ['better', 'same', 'worse'] as const)
      expect(outcomeProbability(model, change, [0, 1], outcome)).toBeCloseTo(
        help * helped[outcome] + harm * harmed[outcome] + (1 - help - harm) * nothing[outcome],
        12,
      );
  });

  it('spoils a setting that was right in part, and only where it cures nothing', () => {
    const change = { cures: Float64Array.from([0.6, 0]), brings: Float64Array.from([0, 0.5]) };
    const upset = model.rules.numbers.advice['upset-when-right'];
    expect(reach(model, change, [])).toEqual({ cure: 0, spoil: 0.5 * upset });
    expect(reach(model, change, [0])).toEqual({ cure: 0.6, spoil: 0 });
    expect(reach(model, change, [1])).toEqual({ cure: 0, spoil: 0.5 });
  });

  it('reads backward as forward: the chance of its report, and of a later one, is the same both ways', () => {
    const change = { cures: Float64Array.from([0.6, 0]), brings: Float64Array.from([0, 0.5]), lasts: 0.7 };
    const sum = (w: Float64Array, f: Float64Array): number => w.reduce((s, x, h) => s + x * f[h]!, 0);
    for (const kept of [true, false]) {
      const one = tabulateTrial(model, change, { outcome: 'better' }, kept);
      const two = tabulateTrial(model, cure(), { outcome: 'worse' }, false);
      const forward = sum(start, one.likelihood) * sum(afterTrial(start, one), two.likelihood);
      expect(sum(start, beforeTrial(two.likelihood, one))).toBeCloseTo(forward, 12);
    }
  });
});
