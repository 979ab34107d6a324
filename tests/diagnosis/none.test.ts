import { describe, expect, it } from 'vitest';
import { priorOf, update, type Evidence } from '../../src/diagnosis/belief.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { chancesBeside, logEvidenceOfNone, noneAfterTrial } from '../../src/diagnosis/none.ts';
import { network, yesNo } from '../support/network.ts';

const NONE = { prior: 0.1, signs: 0.25 };
const net = network({
  priors: [0.2],
  questions: [yesNo('a', 0.1, { 0: 0.5 }), yesNo('b', 0.2, {}), yesNo('c', 0.1, { 0: 0.5 }, 'a')],
});
const numbers = {
  ...net.numbers,
  none: NONE,
  slip: { recall: 0, ride: 0, stand: 0 },
  'one-story': { recall: 0, ride: 0, stand: 0 },
};
const rules = { ...net, numbers };
const say = (question: number, answer: number, sure = 1): Evidence => ({ question, answer, sure });

describe('none of these', () => {
  it('by hand: brings any sign in a quarter of the cases beside its base rate', () => {
    const model = buildModel(rules, 0);
    // P(yes) = 1 − 0.9·0.75 = 0.325 and 1 − 0.8·0.75 = 0.4.
    expect(Math.exp(logEvidenceOfNone(model, [say(0, 1)]))).toBeCloseTo(0.325, 12);
    expect(Math.exp(logEvidenceOfNone(model, [say(0, 0), say(1, 1)]))).toBeCloseTo(0.675 * 0.4, 12);
    expect(Math.exp(logEvidenceOfNone(model, [say(0, 1, 0.4)]))).toBeCloseTo(0.4 * 0.325 + 0.6 / 2, 12);
  });
  it('by hand: is weighed against all sets together', () => {
    const model = buildModel(rules, 0);
    const evidence = [say(1, 1)];
    const told = update(model, priorOf(model), evidence);
    // No cause points to b: 0.2 under all sets, 0.4 under none of these; 0.1·0.4 / (0.1·0.4 + 0.9·0.2).
    const under = { none: logEvidenceOfNone(model, evidence), impression: -Infinity };
    expect(chancesBeside(model, under, told.logEvidence)).toEqual({
      none: expect.closeTo(0.04 / 0.22, 12),
      impression: 0,
    });
  });
  it('shares the trust of a topic as every set does', () => {
    const model = buildModel(rules, 0.3);
    const right = 0.325 * 0.675;
    expect(Math.exp(logEvidenceOfNone(model, [say(0, 1), say(2, 0)]))).toBeCloseTo(0.7 * right + 0.3 / 4, 12);
  });
  it('is no likelier for what the stand shows', () => {
    const stand = { ...rules, questions: rules.questions.map((q) => ({ ...q, how: 'stand' as const })) };
    expect(Math.exp(logEvidenceOfNone(buildModel(stand, 0), [say(0, 1)]))).toBeCloseTo(0.1, 12);
  });
  it('after a trial that helped is less likely, as far as help by itself is rarer', () => {
    const { better } = rules.numbers.results.nothing;
    expect(noneAfterTrial(0.2, better, 0.5)).toBeCloseTo((0.2 * better) / (0.2 * better + 0.8 * 0.5), 12);
  });
});
