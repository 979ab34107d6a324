import { describe, expect, it } from 'vitest';
import { answerProbabilities } from '../../src/diagnosis/answer-model.ts';
import { priorOf, update } from '../../src/diagnosis/belief.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { network, yesNo } from '../support/network.ts';

function yes(leak: number, links: Record<number, number>, causes: number[]): number {
  const n = Math.max(...Object.keys(links).map(Number)) + 1;
  const rules = network({
    priors: Array.from({ length: n }, () => 0.1),
    questions: [yesNo('q', leak, links)],
  });
  return answerProbabilities(rules.questions[0]!, causes, new Float64Array(2))[1]!;
}

describe('noisy-OR against published tables', () => {
  // Russell & Norvig, Artificial Intelligence: A Modern Approach, "Efficient representation of conditional
  // distributions" (3rd ed. Fig. 14.7): inhibitions cold 0.6, flu 0.2, malaria 0.1, no leak.
  it.each([
    [[], 0.0],
    [[2], 0.9],
    [[1], 0.8],
    [[1, 2], 0.98],
    [[0], 0.4],
    [[0, 2], 0.94],
    [[0, 1], 0.88],
    [[0, 1, 2], 0.988],
  ])('fever with causes %j is %f', (causes, expected) => {
    expect(yes(0, { 0: 0.4, 1: 0.8, 2: 0.9 }, causes)).toBeCloseTo(expected, 12);
  });

  // Leak form, Pearl, Probabilistic Reasoning in Intelligent Systems (1988) p. 184, with the inputs of a Bayes-net
  // tool's manual (leak 0.1, links 0.2 and 0.4); the results were recomputed from those inputs.
  it.each([
    [[], 0.1],
    [[0], 0.28],
    [[1], 0.46],
    [[0, 1], 0.568],
  ])('with a leak, causes %j give %f', (causes, expected) => {
    expect(yes(0.1, { 0: 0.2, 1: 0.4 }, causes)).toBeCloseTo(expected, 12);
  });

  it('stores the link, not the probability with the leak in it', () => {
    // Henrion's parameter is P(effect | only this cause, leak active) = 0.28; Díez' link is (0.28 − 0.1)/(1 − 0.1).
    expect(yes(0.1, { 0: (0.28 - 0.1) / (1 - 0.1) }, [0])).toBeCloseTo(0.28, 12);
  });

  it('combines two links without a leak', () => {
    // Inputs of a probabilistic-logic sample (0.3, 0.4) and of a Python library's manual (0.3, 0.5).
    expect(yes(0, { 0: 0.3, 1: 0.4 }, [0, 1])).toBeCloseTo(0.58, 12);
    expect(yes(0, { 0: 0.3, 1: 0.5 }, [0, 1])).toBeCloseTo(0.65, 12);
    // P(e) with both causes at one half: the evidence of a "yes".
    const model = buildModel(
      network({ priors: [0.5, 0.5], questions: [yesNo('q', 0, { 0: 0.3, 1: 0.4 })] }),
      0,
    );
    expect(
      Math.exp(update(model, priorOf(model), [{ question: 0, answer: 1, sure: 1 }]).logEvidence),
    ).toBeCloseTo(0.32, 12);
  });
});

describe('a two-level network with several findings (constructed, not published; Quickscore formula, Heckerman 1989, from memory)', () => {
  const rules = network({
    priors: [0.2, 0.1, 0.01],
    questions: [
      yesNo('fever', 0.01, { 0: 0.4, 1: 0.8, 2: 0.9 }),
      yesNo('cough', 0.05, { 0: 0.7, 1: 0.6 }),
      yesNo('rash', 0.02, { 2: 0.3 }),
    ],
  });
  const model = buildModel(rules, 0);
  it.each([
    [[[0, 1]], 0.169605424, [0.54059394, 0.48316818, 0.05401988]],
    [
      [
        [0, 1],
        [1, 1],
        [2, 0],
      ],
      0.10629426111,
      [0.62839874, 0.50987659, 0.01417371],
    ],
    [
      [
        [0, 1],
        [2, 1],
        [1, 0],
      ],
      0.003257628782,
      [0.18748582, 0.19129278, 0.67143489],
    ],
  ])('findings %j', (findings, evidence, posterior) => {
    const belief = update(
      model,
      priorOf(model),
      findings.map(([question, answer]) => ({ question: question!, answer: answer!, sure: 1 })),
    );
    expect(Math.exp(belief.logEvidence)).toBeCloseTo(evidence, 9);
    posterior.forEach((p, i) => expect(belief.causes[i]).toBeCloseTo(p, 7));
  });
});
