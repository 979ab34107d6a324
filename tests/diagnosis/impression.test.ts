import { describe, expect, it } from 'vitest';
import type { Evidence } from '../../src/diagnosis/belief.ts';
import { logEvidenceOfImpression } from '../../src/diagnosis/impression.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { chancesBeside } from '../../src/diagnosis/none.ts';
import { network, yesNo } from '../support/network.ts';

/** What the rider minds: causes 0 and 1 are told as harsh, cause 2 as soft. */
const broad = {
  id: 'minds',
  answers: ['nothing', 'harsh', 'soft'],
  base: [0, 0.1, 0.1],
  links: [
    [0, 1, 0.6],
    [1, 1, 0.5],
    [2, 2, 0.6],
    [3, 1, 0.1],
  ] as const,
};
const net = network({
  priors: [0.2, 0.2, 0.2, 0.2],
  questions: [
    broad,
    yesNo('hands', 0.1, { 0: 0.5 }),
    yesNo('dives', 0.2, { 2: 0.5 }),
    yesNo('noise', 0.1, {}),
    yesNo('look', 0.1, { 0: 0.5 }),
    yesNo('apart', 0.1, { 3: 0.9 }),
  ],
});
const rules = {
  ...net,
  questions: net.questions.map((q) => (q.id === 'look' ? { ...q, how: 'stand' as const } : q)),
  numbers: {
    ...net.numbers,
    none: { prior: 0, signs: 0.25 },
    'one-impression': { prior: 0.1, bound: 0.8, of: 'minds' },
    slip: { recall: 0, ride: 0, stand: 0 },
  },
};
const model = buildModel(rules, 0);
const say = (question: number, answer: number, sure = 1): Evidence => ({ question, answer, sure });
const chance = (...evidence: Evidence[]): number => Math.exp(logEvidenceOfImpression(model, evidence));

describe('one impression told throughout', () => {
  // Without a story 1 − 0.9·0.75 = 0.325 for a sign over a base rate of 0.1, and 1 − 0.8·0.75 = 0.4 over 0.2.
  it('by hand: is one of the broad signs, each alike, and the other answers follow it', () => {
    // Story harsh: hands follow with 0.8·0.5 + 0.2·0.325 = 0.465. Story soft: hands has no sign for it, 0.325.
    expect(chance(say(1, 1))).toBeCloseTo((0.465 + 0.325) / 2, 12);
    expect(chance(say(1, 0))).toBeCloseTo((0.535 + 0.675) / 2, 12);
    // Harsh: dives has no sign for it. Soft: it is denied although it belongs to the story, 0.8·0.5 + 0.2·0.6.
    expect(chance(say(1, 1), say(2, 0))).toBeCloseTo((0.465 * 0.6 + 0.325 * 0.52) / 2, 12);
  });
  it('tells the broad sign itself as often as its strongest cause does', () => {
    // Harsh 0.6 and soft 0.2 of the rest; without a story 0.325 of being noticed, 0.325·0.675 of being the only one.
    const alone = 0.325 * 0.675;
    expect(chance(say(0, 1))).toBeCloseTo((0.8 * 0.6 + 0.8 * 0.2) / 2 + 0.2 * alone, 12);
  });
  it('holds a question that shares nothing with any story, and a look in the stand, for what they are', () => {
    expect(chance(say(3, 1))).toBeCloseTo(0.325, 12);
    expect(chance(say(4, 1))).toBeCloseTo(0.1, 12);
  });
  it('has no part in a cause that the broad sign hardly shows', () => {
    expect(chance(say(5, 1))).toBeCloseTo(0.325, 12);
  });
  it('counts an unsure answer for less', () => {
    expect(chance(say(1, 1, 0.5))).toBeCloseTo((0.5 * 0.465 + 0.25 + 0.5 * 0.325 + 0.25) / 2, 12);
  });
  it('adds up to 1 over all answers', () => {
    let sum = 0;
    for (const a of [0, 1, 2])
      for (const b of [0, 1]) for (const c of [0, 1]) sum += chance(say(0, a), say(1, b), say(2, c));
    expect(sum).toBeCloseTo(1, 12);
  });
  it('does not depend on the order of the answers', () => {
    expect(chance(say(0, 1), say(1, 1), say(2, 0))).toBeCloseTo(chance(say(2, 0), say(1, 1), say(0, 1)), 14);
  });
  it('is nothing where the rules name no such question', () => {
    const none = { ...rules.numbers, 'one-impression': { prior: 0, bound: 0, of: '' } };
    expect(logEvidenceOfImpression(buildModel({ ...rules, numbers: none }), [say(1, 1)])).toBe(-Infinity);
  });
  it('by hand: is weighed against the causes and against none of these', () => {
    const both = { ...rules.numbers, none: { prior: 0.2, signs: 0.25 } };
    const under = { none: Math.log(0.3), impression: Math.log(0.5) };
    // 0.2·0.3, 0.1·0.5 and 0.7·0.1, over their sum of 0.18.
    const got = chancesBeside({ ...model, rules: { ...rules, numbers: both } }, under, Math.log(0.1));
    expect(got.none).toBeCloseTo(0.06 / 0.18, 12);
    expect(got.impression).toBeCloseTo(0.05 / 0.18, 12);
  });
});
