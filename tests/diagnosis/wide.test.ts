/** A group of nearly all causes beside narrow ones: two ways through the engine that must come to the same. */
import { describe, expect, it } from 'vitest';
import { priorOf, update, type Evidence } from '../../src/diagnosis/belief.ts';
import { effects } from '../../src/diagnosis/explain.ts';
import { gains } from '../../src/diagnosis/inquiry.ts';
import { plainCauses, plainPosterior } from '../support/plain/posterior.ts';
import { plainGain } from '../support/plain/ranking.ts';
import { buildModel, withStrengths, type Model } from '../../src/diagnosis/model.ts';
import { isWide, posteriorOf } from '../../src/diagnosis/fast/class-marginals.ts';
import { network, type PlainQuestion } from '../support/network.ts';

const CAUSES = 16;
const some = (start: number, end: number, strength: (c: number) => number): PlainQuestion['links'] =>
  Array.from({ length: end - start }, (_, i) => [start + i, 1 + ((start + i) % 2), strength(start + i)]);
const answers = ['no', 'yes', 'much'];
const base = [0, 0.05, 0.1];
const rules = network({
  priors: Array.from({ length: CAUSES }, (_, c) => 0.02 + 0.01 * c),
  // The last two exclude each other.
  settings: Array.from({ length: CAUSES }, (_, c) => Math.min(c, CAUSES - 2)),
  most: 3,
  questions: [
    { id: 'all', answers, base, links: some(0, CAUSES, (c) => 0.9 - 0.05 * c), several: 'any', group: 'all' },
    { id: 'most', answers, base, links: some(0, 15, (c) => 0.1 + 0.05 * c), several: 1, group: 'most' },
    { id: 'more', answers, base, links: some(1, 14, () => 0.4), several: 'cancel', group: 'most' },
    { id: 'few', answers, base, links: some(2, 7, (c) => 0.1 * c), several: 'any', group: 'few' },
    { id: 'also', answers, base, links: some(3, 8, () => 0.6), several: 2, group: 'few' },
    { id: 'open', answers, base, links: some(12, CAUSES, () => 0.7), several: 'any', group: 'open' },
    { id: 'free', answers, base, links: some(0, CAUSES, () => 0.5), several: 'any', group: 'free' },
  ],
});
const DOUBT = 0.1;
const model = buildModel(rules, DOUBT);
const say = (question: number, answer: number, sure = 1): Evidence => ({ question, answer, sure });
const stories: Evidence[][] = [
  [say(0, 1), say(3, 2)],
  [say(0, 2, 0.75), say(1, 1), say(2, 1), say(3, 1), say(4, 2)],
  [say(1, 0), say(4, 1, 0.4), say(5, 0)],
];

const logOdds = (p: number): number => 10 * Math.log10(p / (1 - p));
const oddsOf = (m: Model, cause: number, evidence: Evidence[]): number =>
  logOdds(update(m, priorOf(m), evidence).causes[cause]!);

describe('groups wide and narrow', () => {
  it('has both kinds', () => {
    const posterior = posteriorOf(model, update(model, priorOf(model), []));
    expect(model.groups.map((g) => isWide(g, posterior))).toEqual([true, true, false, false, true]);
  });

  it('agrees with the plain posterior', () => {
    for (const story of stories) {
      const belief = update(model, priorOf(model), story);
      const plain = plainPosterior(rules, story, DOUBT);
      expect(belief.nothing).toBeCloseTo(plain.sets[0]!.p, 12);
      plainCauses(rules, plain).forEach((p, c) => expect(belief.causes[c]).toBeCloseTo(p, 12));
    }
  });

  it('gives open questions the information gain of its definition', () => {
    for (const story of stories) {
      const open = [...rules.questions.keys()].filter((q) => !story.some((e) => e.question === q));
      const belief = update(model, priorOf(model), story);
      for (const { question, bits } of gains(model, posteriorOf(model, belief), story, open))
        expect(bits).toBeCloseTo(plainGain(rules, story, question, DOUBT), 10);
    }
  });

  it('makes the effect of a topic the log odds with and without it', () => {
    for (const story of stories) {
      const belief = update(model, priorOf(model), story);
      const causes = [0, 3, 7, 15];
      const found = effects(model, belief, posteriorOf(model, belief), story, causes);
      for (const cause of causes) {
        for (const group of model.groups) {
          const own = story.filter((e) => group.questions.includes(e.question));
          if (own.length === 0) continue;
          const sum = found
            .get(cause)!
            .filter((e) => group.questions.includes(e.question))
            .reduce((total, e) => total + e.decibans, 0);
          const without = story.filter((e) => !own.includes(e));
          expect(sum).toBeCloseTo(logOdds(belief.causes[cause]!) - oddsOf(model, cause, without), 8);
        }
      }
    }
  });

  it('comes to the same with a strength changed as with rules built anew', () => {
    for (const index of [1, 3]) {
      const question = rules.questions[index]!;
      const links = question.links.map(([c, a, s], i) => [c, a, i === 2 ? s / 2 : s] as const);
      const now = { ...question, links };
      const changed = withStrengths(model, new Map([[index, now]]));
      const anew = buildModel({ ...rules, questions: rules.questions.with(index, now) }, DOUBT);
      for (const story of stories)
        for (const cause of [0, 4, 9])
          expect(oddsOf(changed, cause, story)).toBeCloseTo(oddsOf(anew, cause, story), 10);
    }
  });
});
