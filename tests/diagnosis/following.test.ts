import { describe, expect, it } from 'vitest';
import { priorOf, update, type Evidence } from '../../src/diagnosis/belief.ts';
import { asFollowed, averageOf, chanceFollowing } from '../../src/diagnosis/following.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { network, yesNo } from '../support/network.ts';

/** The rider minds harsh (cause 0) or soft (cause 1); hands and feet speak of cause 0, dives of cause 1. */
const net = network({
  priors: [0.2, 0.2],
  questions: [
    {
      id: 'minds',
      answers: ['nothing', 'harsh', 'soft'],
      base: [0, 0.1, 0.1],
      links: [
        [0, 1, 0.6],
        [1, 2, 0.6],
      ],
    },
    yesNo('hands', 0.1, { 0: 0.5 }),
    yesNo('feet', 0.1, { 0: 0.5 }),
    yesNo('dives', 0.2, { 1: 0.5 }),
    yesNo('look', 0.1, { 0: 0.5 }),
  ],
});
const model = buildModel(
  {
    ...net,
    questions: net.questions.map((q) => (q.id === 'look' ? { ...q, how: 'stand' as const } : q)),
    numbers: {
      ...net.numbers,
      'one-impression': { prior: 0, bound: 0, of: 'minds' },
      following: { prior: 0.1, share: 0.4 },
      slip: { recall: 0, ride: 0, stand: 0 },
    },
  },
  0,
);
const say = (question: number, answer: number, sure = 1): Evidence => ({ question, answer, sure });
const told = (...evidence: Evidence[]) => update(model, priorOf(model), evidence);

describe('a rider who follows his complaint', () => {
  it('by hand: gives another answer in its sense in four of ten, and else what the bike shows', () => {
    const evidence = [say(0, 1), say(1, 1), say(2, 0)];
    // Harsh is told with (1 − 0.9·0.4)·0.9 = 0.576 and, with nothing of it off, 0.1·0.9. Hands: 0.6·0.55 + 0.4 = 0.73 and
    // 0.6·0.1 + 0.4 = 0.46; feet denied: 0.6·0.45 = 0.27 and 0.6·0.9 = 0.54. Cause 1 alone tells soft as often.
    const with0 = 0.2 * 0.8 * 0.576 * 0.73 * 0.27;
    const nothing = 0.8 * 0.8 * 0.09 * 0.46 * 0.54;
    const with1 = 0.8 * 0.2 * 0.1 * 0.36 * 0.46 * 0.54;
    const both = 0.2 * 0.2 * 0.64 * 0.36 * 0.73 * 0.27;
    const belief = told(...asFollowed(model, evidence)!);
    expect(belief.causes[0]).toBeCloseTo((with0 + both) / (with0 + nothing + with1 + both), 12);
    expect(Math.exp(belief.logEvidence)).toBeCloseTo(with0 + nothing + with1 + both, 12);
  });
  it('answers as any rider does where nothing is in the sense of a complaint', () => {
    expect(asFollowed(model, [say(1, 1), say(2, 1)])).toBeUndefined();
    expect(asFollowed(model, [say(0, 0), say(1, 1)])).toBeUndefined();
    expect(asFollowed(model, [say(0, 1), say(1, 0), say(3, 1)])).toBeUndefined();
    expect(asFollowed(model, [say(0, 2), say(1, 1), say(2, 1)])).toBeUndefined();
  });
  it('tells nothing of what the stand shows, nor of what has nothing to do with his complaint', () => {
    const [minds, hands, dives, look] = asFollowed(model, [say(0, 1), say(1, 1), say(3, 1), say(4, 1)])!;
    expect([minds, dives, look]).toEqual([say(0, 1), say(3, 1), say(4, 1)]);
    expect(hands).toEqual({ question: 1, answer: 1, sure: 0.6, floor: 0.4 });
  });
  it('is as unsure as he says: what does not follow, and what is guessed, is any answer alike', () => {
    const [, hands] = asFollowed(model, [say(0, 1), say(1, 1, 0.5)])!;
    expect(hands!.sure).toBeCloseTo(0.3, 12);
    expect(hands!.floor).toBeCloseTo(0.25 + 0.2, 12);
  });
  it('has answers whose chances add up to 1, also under a wrong impression', () => {
    const shared = buildModel({
      ...model.rules,
      questions: model.rules.questions.map((q) => ({ ...q, group: 'g', topic: 'g' })),
      numbers: { ...model.rules.numbers, 'one-story': { recall: 0.9, ride: 0.9, stand: 0 } },
    }, 0.3); // prettier-ignore
    let sum = 0;
    for (const hands of [0, 1])
      for (const feet of [0, 1]) {
        const evidence = [say(0, 1), say(1, hands), say(2, feet)];
        const asTold = asFollowed(shared, evidence);
        // Both denied: the same as one tells it who follows and happens not to, 0.6 of the usual each.
        const own = asTold ?? [say(0, 1), ...[1, 2].map((q) => ({ ...say(q, 0, 0.6), floor: 0 }))];
        sum += Math.exp(update(shared, priorOf(shared), own).logEvidence);
      }
    expect(sum).toBeCloseTo(Math.exp(update(shared, priorOf(shared), [say(0, 1)]).logEvidence), 12);
  });
  it('by hand: is as likely as his answers make him, and what is believed is the mean of both', () => {
    // 0.1·0.3 and 0.9·0.2.
    const chance = chanceFollowing(model, Math.log(0.3), Math.log(0.2));
    expect(chance).toBeCloseTo(0.03 / 0.21, 12);
    const usual = told(say(0, 1), say(1, 1));
    const following = told(...asFollowed(model, [say(0, 1), say(1, 1)])!);
    const mean = averageOf(usual, following, chance);
    expect(mean.causes[0]).toBeCloseTo((0.18 * usual.causes[0]! + 0.03 * following.causes[0]!) / 0.21, 12);
    expect(mean.weights.reduce((s, w) => s + w, 0)).toBeCloseTo(1, 12);
    expect(mean.nothing).toBeCloseTo(mean.weights[0]!, 12);
    expect(following.causes[0]).toBeLessThan(usual.causes[0]!);
  });
});
