import { printDeed, readDeed } from '../../src/bike/deed.ts';
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { Case, CaseAnswer, CaseResult } from '../../src/casework/case.ts';
import { consult, type Wishes } from '../../src/casework/consult.ts';
import { leading } from '../../src/casework/leading.ts';
import { update } from '../../src/diagnosis/belief.ts';
import { outcomeProbability } from '../../src/diagnosis/results.ts';
import { membersOf } from '../../src/diagnosis/hypotheses.ts';
import { model } from '../support/front-rules.ts';

const bench = prepareBike(model);
const PLAIN: Wishes = { next: false, explain: 0, fit: false };
const ASKING: Wishes = { ...PLAIN, next: true };
const said = (question: string, answer: string, sure: CaseAnswer['sure'] = 'sure'): CaseAnswer => ({
  question,
  answer,
  sure,
});
const rode = (change: string, outcome: CaseResult['outcome'], kept = false): CaseResult => ({
  change: readDeed(change),
  outcome,
  kept,
});
const kase = (answers: CaseAnswer[], rest: Partial<Case> = {}): Case => ({
  id: 'x',
  answers,
  results: [],
  earlier: [],
  ...rest,
});
const opened = (answers: CaseAnswer[], wishes: Partial<Wishes> = {}): string[] =>
  consult(model, bench, kase(answers), { ...ASKING, ...wishes }).open.map(
    (g) => model.rules.questions[g.question]!.id,
  );

describe('belief', () => {
  it('ranks the causes by falling probability, equal ones in the order of the rules', () => {
    const { ranked, belief } = consult(model, bench, kase([said('loose', 'yes')]), PLAIN);
    const p = ranked.map((c) => Math.round(belief.causes[c]! * 1e10));
    expect([...ranked].sort((a, b) => a - b)).toEqual(model.rules.causes.map((_, c) => c));
    for (let i = 1; i < p.length; i++) {
      expect(p[i]).toBeLessThanOrEqual(p[i - 1]!);
      if (p[i] === p[i - 1]) expect(ranked[i]).toBeGreaterThan(ranked[i - 1]!);
    }
    expect(model.rules.causes[ranked[0]!]!.id).toBe('front.seals.worn');
    // Two causes of one prior that nothing speaks of.
    expect(new Set(p).size).toBeLessThan(p.length);
    for (const count of [0, 1, 2, 5, p.length, p.length + 1])
      expect(leading(belief.causes, count)).toEqual(ranked.slice(0, count));
  });

  it('goes on after an earlier round from where its trials left it', () => {
    const results = [rode('front.rebound.low+2', 'worse')];
    const first = consult(model, bench, kase([said('packs', 'yes')], { results }), PLAIN);
    const later = consult(
      model,
      bench,
      kase([said('loose', 'no')], { earlier: [{ answers: [said('packs', 'yes')], results }] }),
      PLAIN,
    );
    const told = [{ question: model.questionIndex.get('loose')!, answer: 0, sure: 1 }];
    const expected = update(model, first.belief.weights, told);
    expected.causes.forEach((p, c) => expect(later.belief.causes[c]).toBeCloseTo(p, 12));
    expect(later.trials).toEqual(first.trials);
  });

  it('weighs a trial that was taken back by how likely each set makes its report, and says what it did', () => {
    const change = 'front.rebound.low.open';
    const before = consult(model, bench, kase([]), PLAIN).belief;
    const { belief, trials } = consult(model, bench, kase([], { results: [rode(change, 'better')] }), PLAIN);
    const effect = bench.effect(model.rules.adjustments.findIndex((a) => a.id === change));
    const weights = before.weights.map(
      (w, h) => w * outcomeProbability(model, effect, membersOf(model.space, h), 'better'),
    );
    const total = weights.reduce((sum, w) => sum + w, 0);
    weights.forEach((w, h) => expect(belief.weights[h]).toBeCloseTo(w / total, 12));
    expect(belief.nothing).toBe(belief.weights[0]);
    const slow = model.causeIndex.get('front.rebound.low.too-slow')!;
    const odds = (p: number): number => 10 * Math.log10(p / (1 - p));
    expect(trials).toHaveLength(1);
    expect(trials[0]!.decibans[slow]).toBeCloseTo(odds(belief.causes[slow]!) - odds(before.causes[slow]!), 9);
    expect(trials[0]!.decibans[slow]).toBeGreaterThan(1);
  });

  it('counts no trial that the rules cannot place, of any round, and names it', () => {
    const odd = [rode('front.tyre+2psi', 'better')];
    const told = consult(
      model,
      bench,
      kase([], { results: odd, earlier: [{ answers: [], results: odd }] }),
      PLAIN,
    );
    expect(told.unplaced.map(printDeed)).toEqual(['front.tyre+2psi', 'front.tyre+2psi']);
    const plain = consult(model, bench, kase([]), PLAIN).belief.causes;
    told.belief.causes.forEach((p, c) => expect(p).toBeCloseTo(plain[c]!, 12));
  });
});

describe('what is asked next', () => {
  it('is nothing that was answered, not known, or waits at its gate', () => {
    expect(opened([]).sort()).toEqual(['loose', 'packs']);
    expect(opened([said('packs', 'yes')]).sort()).toEqual(['loose', 'packs-deep']);
    expect(opened([said('packs', 'no')])).toEqual(['loose']);
    expect(opened([said('packs', 'cannot-tell')])).toEqual(['loose']);
  });

  it('is what was put off as well, unless that is left out', () => {
    expect(opened([said('packs', 'not-now')]).sort()).toEqual(['loose', 'packs']);
    expect(opened([said('packs', 'not-now')], { skipPutOff: true })).toEqual(['loose']);
  });

  it('is what is open of safety, however little else there is to know', () => {
    const stop = (answers: CaseAnswer[]) => consult(model, bench, kase(answers), ASKING).stop;
    const settled = [said('packs', 'no')];
    expect(stop(settled)).toBeUndefined();
    expect(stop([...settled, said('loose', 'no')])).toBe('dry');
    expect(stop([said('packs', 'cannot-tell')])).toBeUndefined();
    expect(stop([said('loose', 'yes')])).toBe('danger');
  });

  it('is not worked out, and no stop with it, unless asked for', () => {
    expect(consult(model, bench, kase([]), PLAIN)).toMatchObject({
      open: [],
      stop: undefined,
      fit: undefined,
    });
  });
});

describe('what is explained', () => {
  it.each([0, 1, 3])('is the effect of every answer on the %i leading causes', (explain) => {
    const told = consult(model, bench, kase([said('packs', 'yes'), said('loose', 'no')]), {
      ...PLAIN,
      explain,
    });
    expect([...told.evidence.keys()]).toEqual(told.ranked.slice(0, explain));
    for (const list of told.evidence.values()) expect(list).toHaveLength(2);
  });
});
