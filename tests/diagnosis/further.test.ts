/** A look ahead out of what is believed already, against the posterior worked out anew. */
import { describe, expect, it } from 'vitest';
import { priorOf, update, type Belief, type Evidence } from '../../src/diagnosis/belief.ts';
import { further } from '../../src/diagnosis/fast/further.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { baseRules } from '../support/base-rules.ts';
import { network } from '../support/network.ts';

const { rules } = baseRules();
const model = buildModel(rules);
const prior = priorOf(model);
const room = () => ({
  weights: new Float64Array(model.space.size),
  causes: new Float64Array(model.space.causes),
});
const say = (question: number, answer: number, more: Partial<Evidence> = {}): Evidence => ({
  question,
  answer,
  sure: 1,
  ...more,
});
const aheadOf = (was: Evidence[], now: Evidence[]): Belief | undefined =>
  further(model, update(model, prior, was), { was, now }, room());

/** Questions, one a group, and with them those of the same group. */
const firsts = model.groups.map((group) => group.questions[0]!);
const beside = model.groups.flatMap(({ questions, joint }) =>
  joint === undefined && questions.length > 1 ? [[questions[0]!, questions[1]!] as const] : [],
);

/** The largest difference between two beliefs in any set, cause, or the logarithm of their evidence. */
function apart(a: Belief, b: Belief): number {
  const all = ({ causes, weights, logEvidence }: Belief): number[] => [...causes, ...weights, logEvidence];
  const others = all(b);
  return Math.max(...all(a).map((x, i) => Math.abs(x - others[i]!)));
}

describe('what is believed after one answer more', () => {
  it.each(firsts.slice(0, 40).map((question, i) => [rules.questions[question]!.id, question, i] as const))(
    'is what the posterior is: %s',
    (_id, question, i) => {
      const others = [3, 11, 17].map((step) => firsts[(i + step) % 41]!).filter((q) => q !== question);
      const was = [...new Set(others)].map((q) => say(q, 1));
      for (const answer of rules.questions[question]!.answers.keys()) {
        const now = [...was, say(question, answer)];
        expect(apart(aheadOf(was, now)!, update(model, prior, now))).toBeLessThan(1e-12);
      }
    },
  );

  it('is that where the topic was spoken of already, and where an answer is given half, or another instead', () => {
    for (const [first, second] of beside.slice(0, 12)) {
      const was = [say(first, 1, { sure: 0.7 })];
      for (const now of [
        [...was, say(second, 1)],
        [...was, say(second, 0, { share: 0.6 }), say(second, 1, { share: 0.6 })],
        [say(first, 0)],
        [say(first, 1, { sure: 0.7, floor: 0.2 })],
      ])
        expect(apart(aheadOf(was, now)!, update(model, prior, now))).toBeLessThan(1e-12);
    }
  });

  it('is left to the posterior where more than one topic has changed, or one is no longer there', () => {
    const [a, b, c] = firsts;
    expect(aheadOf([say(a!, 1)], [say(a!, 1), say(b!, 1), say(c!, 1)])).toBeUndefined();
    expect(aheadOf([say(a!, 1), say(b!, 1)], [say(a!, 1), say(c!, 1)])).toBeUndefined();
    expect(aheadOf([say(a!, 1)], [say(a!, 1)])).toBeUndefined();
  });

  it('is left to the posterior where what was said before ruled something out', () => {
    const answers = ['no', 'yes'];
    const sharp = buildModel(
      network({
        priors: [0.2, 0.3],
        most: 2,
        questions: [
          { id: 'q', answers, base: [0, 0], links: [[0, 1, 1]], several: 'any', group: 'g' },
          {
            id: 'r',
            answers,
            base: [0, 0.1],
            links: [
              [0, 1, 0.5],
              [1, 1, 0.5],
            ],
            several: 'any',
            group: 'g',
          },
        ],
      }),
      0,
    );
    const was = [say(0, 1)];
    const before = update(sharp, priorOf(sharp), was);
    const space = { weights: new Float64Array(sharp.space.size), causes: new Float64Array(2) };
    expect(further(sharp, before, { was, now: [...was, say(1, 1)] }, space)).toBeUndefined();
  });
});
