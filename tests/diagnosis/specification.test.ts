/** The worked example of DEVELOPERS.md ("The model, written down"): every number there, computed by the engine. */
import { describe, expect, it } from 'vitest';
import { factorOf, priorOf, update, type Evidence } from '../../src/diagnosis/belief.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { chancesBeside, logEvidenceOfNone } from '../../src/diagnosis/none.ts';
import { afterTrial, tabulateTrial } from '../../src/diagnosis/results.ts';
import { tabulateTried } from '../../src/diagnosis/tried.ts';
import { network, yesNo } from '../support/network.ts';

const A = 0;
const B = 1;
const net = network({
  priors: [0.1, 0.05],
  questions: [
    yesNo('q@front', 0.1, { [A]: 0.6 }, 't@front'),
    yesNo('r@front', 0.2, { [A]: 0.5 }, 't@front'),
    yesNo('q@rear', 0.1, { [B]: 0.6 }, 't@rear'),
  ],
});
const rules = {
  ...net,
  numbers: {
    ...net.numbers,
    trust: { recall: 0.1, ride: 0.1, stand: 0.01 },
    slip: { recall: 0.05, ride: 0.05, stand: 0 },
    'one-story': { recall: 0.9, ride: 0.9, stand: 0 },
    none: { prior: 0.05, signs: 0.2 },
    tried: {
      doubt: 0.25,
      lasts: 0.25,
      upsets: 0.06,
      'still-on': { better: 0.9, same: 0.4, worse: 0.2, 'not-sure': 0.5 },
    },
    results: {
      ...net.numbers.results,
      helped: { better: 0.8, same: 0.15, worse: 0.05 },
      nothing: { better: 0.15, same: 0.65, worse: 0.2 },
    },
  },
  questions: [
    ...net.questions,
    {
      ...net.questions[0]!,
      id: 'q@either',
      group: 't@either',
      either: [0, 2] as const,
      base: [],
      links: [],
    },
  ],
};
const model = buildModel(rules);
const yes = (question: number): Evidence => ({ question, answer: 1, sure: 1 });
const told = (...questions: number[]) => update(model, priorOf(model), questions.map(yes));
const factor = (...questions: number[]): number[] => [
  ...factorOf(model, model.groupOf[questions[0]!]!, questions.map(yes)).factor,
];
/** The change that cures A. */
const effect = { cures: Float64Array.of(1, 0), brings: new Float64Array(2), lasts: 0.7 };

describe('the worked example', () => {
  it('1: one answer, with its slip and its trust', () => {
    expect(factor(0)[0]).toBeCloseTo(0.158, 12);
    expect(factor(0)[1]).toBeCloseTo(0.6197, 12);
    expect(told(0).causes[A]).toBeCloseTo(0.3035, 4);
  });
  it('2: a second answer of the same impression, told as one story when it is wrong', () => {
    expect(factor(0, 1)[0]).toBeCloseTo(0.06847, 12);
    expect(factor(0, 1)[1]).toBeCloseTo(0.3842215, 12);
    expect(told(0, 1).causes[A]).toBeCloseTo(0.384, 4);
  });
  it('3: the same answer with its end not known', () => {
    // The classes in their order: none, A, A and B, B.
    const wanted = [0.158, 0.38885, 0.6197, 0.38885];
    factor(3).forEach((f, c) => expect(f).toBeCloseTo(wanted[c]!, 12));
    const { causes } = told(3);
    expect(causes[A]).toBeCloseTo(0.2079, 4);
    expect(causes[B]).toBeCloseTo(0.1069, 4);
  });
  it('4: none of these', () => {
    const evidence = [yes(0)];
    expect(Math.exp(logEvidenceOfNone(model, evidence))).toBeCloseTo(0.3119, 12);
    const { logEvidence } = told(0);
    expect(Math.exp(logEvidence)).toBeCloseTo(0.2042, 4);
    const under = { none: logEvidenceOfNone(model, evidence), impression: -Infinity };
    expect(chancesBeside(model, under, logEvidence).none).toBeCloseTo(0.0744, 4);
  });
  it('5: a trial that was better and kept', () => {
    const after = afterTrial(told(0).weights, tabulateTrial(model, effect, { outcome: 'better' }, true));
    expect(after[0]).toBeCloseTo(0.7507, 4);
    expect(after[1]! + after[2]!).toBeCloseTo(0.2098, 4);
  });
  it('6: the same change, only tried before and put back', () => {
    const after = afterTrial(told(0).weights, tabulateTried(model, effect, [{ outcome: 'better' }], 0));
    expect(after[1]! + after[2]!).toBeCloseTo(0.6033, 4);
  });
  it('7: the same, still on the bike: one step may not have been enough, and B may have come of it', () => {
    const brings = { ...effect, brings: Float64Array.of(0, 0.4) };
    const after = afterTrial(told(0).weights, tabulateTried(model, brings, [{ outcome: 'better' }], 1));
    expect(after[1]! + after[2]!).toBeCloseTo(0.4579, 4);
    const b = after[2]! + after[3]!;
    expect(b).toBeCloseTo(0.0451, 4);
  });
});
