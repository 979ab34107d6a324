import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { Case, Round } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { modelFor, shiftOf } from '../../src/casework/rider.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { AS_THE_MODEL, drawTruth, makeRider, seeded, type Manners } from '../../src/evaluation/riders.ts';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import { historyLines } from '../../src/workspace/bikes/history-of.ts';
import { network, yesNo } from '../support/network.ts';

const net = network({
  priors: [0.2, 0.2, 0.15, 0.15, 0.1],
  questions: Array.from({ length: 12 }, (_, i) =>
    yesNo(`q${i}`, 0.08 + 0.01 * i, { [i % 5]: 0.7, [(i + 2) % 5]: 0.25 }),
  ),
});
const withRider = (rider: CompiledRules['numbers']['rider']): CompiledRules => ({
  ...net,
  numbers: { ...net.numbers, rider },
});
const rules = withRider({ spread: 0.5, from: 3, least: 0.3, stays: 0.5 });
const model = buildModel(rules);
const bench = prepareBike(model);

/** Something that no rule knows stayed on: the next interview is about another bike. */
const CHANGED = { change: { name: 'changed' }, outcome: 'same', kept: true } as const;

/** Interviews of one rider about bikes as the prior has them, every question asked. */
function log(manners: Partial<Manners>, seed: number, count: number): Round[] {
  const random = seeded(seed);
  return Array.from({ length: count }, () => {
    const truth = drawTruth(model, bench.prior, random);
    const rider = makeRider(model, truth, { ...AS_THE_MODEL, ...manners }, random);
    const answers = rules.questions.map(({ id }, q) => ({
      question: id,
      answer: rider.answer(q),
      sure: 'sure' as const,
    }));
    return { answers, results: [CHANGED] };
  });
}
/** Of thirty riders who otherwise err as the model has it. */
function shifts(manners: Partial<Manners>): number[] {
  const seeds = seeded(7);
  const usual = { topicWrong: rules.numbers.trust.recall };
  return Array.from({ length: 30 }, () =>
    shiftOf(model, bench, { earlier: log({ ...usual, ...manners }, seeds(), 10) }),
  );
}
const mean = (list: readonly number[]): number => list.reduce((s, x) => s + x, 0) / list.length;
const error = (list: readonly number[]): number =>
  Math.sqrt(mean(list.map((x) => (x - mean(list)) ** 2)) / (list.length - 1));
/** How far two kinds of rider are told apart, in standard errors of the difference. */
const apart = (a: readonly number[], b: readonly number[]): number =>
  (mean(a) - mean(b)) / Math.hypot(error(a), error(b));
const WISHES = { next: true, explain: 0, fit: true };
const NOW = { answers: log({}, 99, 1)[0]!.answers.slice(0, 6), results: [] };
const kase = (earlier: readonly Round[]): Case => ({ id: 'now', ...NOW, earlier });

describe('the rider of a log', () => {
  it('one who complains is taken for one, one who understates too, an honest one for neither', () => {
    const honest = shifts({});
    expect(Math.abs(mean(honest))).toBeLessThan(0.15);
    const loud = shifts({ complains: 3 });
    expect(mean(loud)).toBeGreaterThan(0.6);
    expect(apart(loud, honest)).toBeGreaterThan(3);
    expect(apart(shifts({ complains: 1 / 3 }), honest)).toBeLessThan(-3);
    expect(honest.filter((x) => x === 0).length).toBeGreaterThan(15);
  });
  it('is not known from two interviews, nor from rounds that say nothing', () => {
    const loud = log({ complains: 8 }, 1, 3);
    expect(shiftOf(model, bench, { earlier: loud })).toBeGreaterThan(0);
    expect(modelFor(model, bench, { earlier: loud.slice(1) })).toBe(model);
    const empty: Round = { answers: [], results: [] };
    expect(shiftOf(model, bench, { earlier: [...loud.slice(1), empty, empty] })).toBe(0);
  });
  it('is not known from one bike, however often the same is said of it', () => {
    const loud = log({ complains: 8 }, 1, 3);
    expect(shiftOf(model, bench, { earlier: loud })).toBeGreaterThan(0);
    expect(shiftOf(model, bench, { earlier: loud.map(({ answers }) => ({ answers, results: [] })) })).toBe(0);
  });
  it('is not taken for a complainer because a fault lasts, whatever else was kept in between', () => {
    const random = seeded(5);
    const lasting = (by: ReturnType<typeof buildModel>): number => {
      const rider = makeRider(by, [0, 1, 2], AS_THE_MODEL, random);
      const answers = rules.questions.map(({ id }, q) => ({
        question: id,
        answer: rider.answer(q),
        sure: 'sure' as const,
      }));
      const earlier = Array.from({ length: 10 }, () => ({ answers, results: [CHANGED] }));
      return shiftOf(by, prepareBike(by), { earlier });
    };
    const anew = buildModel(withRider({ spread: 0.5, from: 3, least: 0, stays: 0 }));
    const once = buildModel(withRider({ spread: 0.5, from: 3, least: 0, stays: 0.9 }));
    expect(Math.abs(lasting(once))).toBeLessThan(Math.abs(lasting(anew)));
  });
  it('is left alone by rules that have no such number', () => {
    const plain = buildModel(withRider({ spread: 0, from: 1, least: 0, stays: 0 }));
    expect(modelFor(plain, prepareBike(plain), { earlier: log({ complains: 8 }, 1, 9) })).toBe(plain);
  });
  it('counts in a case exactly as base rates do that were written so', () => {
    const earlier = log({ complains: 3 }, 2, 10);
    const shift = shiftOf(model, bench, { earlier });
    expect(shift).toBeGreaterThan(0.3);
    const odds = (b: number): number => (b / (1 - b)) * Math.exp(shift);
    const own: CompiledRules = {
      ...withRider({ spread: 0, from: 3, least: 0, stays: 0 }),
      questions: net.questions.map((q) => ({
        ...q,
        base: q.base.map((b, a) => (a === q.default ? b : odds(b) / (1 + odds(b)))),
      })),
    };
    const written = buildModel(own);
    const told = consult(model, bench, kase(earlier), WISHES);
    const same = consult(written, prepareBike(written), kase(earlier), WISHES);
    told.belief.causes.forEach((p, c) => expect(p).toBeCloseTo(same.belief.causes[c]!, 12));
    expect(told.none).toBeCloseTo(same.none, 12);
    expect(told.open.map((g) => g.question)).toEqual(same.open.map((g) => g.question));
  });
  it('is spoken of in one line, and only when it counts', () => {
    const lines = (manners: Partial<Manners>, seed: number): string[] =>
      historyLines(model, bench, kase(log(manners, seed, 10)), []).filter(
        (line) => !line.startsWith('Changed: '),
      );
    expect(lines({ complains: 3 }, 2)).toEqual([
      'The answers so far tell of problems more readily than most riders do. That is allowed for.',
    ]);
    expect(lines({ complains: 0.1 }, 2)).toEqual([
      'The answers so far tell of problems less readily than most riders do. That is allowed for.',
    ]);
    const quiet = Array.from({ length: 9 }, (_, i) => i).find(
      (i) => shiftOf(model, bench, { earlier: log({}, i, 10) }) === 0,
    )!;
    expect(lines({}, quiet)).toEqual([]);
  });
});
