import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { CaseResult } from '../../src/casework/case.ts';
import { buildModel, type Model } from '../../src/diagnosis/model.ts';
import { countAnswers, observer, strengthTable } from '../../src/evaluation/learn-count.ts';
import { observe, type Logged } from '../../src/evaluation/learn-observe.ts';
import { seeded } from '../../src/evaluation/riders.ts';
import { withMoved } from '../../src/evaluation/sensitivity.ts';
import { strengthsOf } from '../../src/evaluation/strengths.ts';
import { rulesOf } from '../support/compile-text.ts';
import { WORKSHOP } from '../support/workshop-rules.ts';
import { madeLogs } from './made-logs.ts';

// A trust below one and a slip, so that every hidden part takes part.
const written = rulesOf({ 'rules.yaml': WORKSHOP });
const rules = {
  ...written,
  numbers: { ...written.numbers, slip: { recall: 0.1, ride: 0.1, stand: 0 } },
};
const model = buildModel(rules);
const bench = prepareBike(model);
const strengths = strengthsOf(rules);
const STEP = 1e-5;

function logLikelihood(m: Model, logged: readonly Logged[]): number {
  const read = observer(m);
  return observe(model, logged).observations.reduce((sum, o) => sum + read(o).logLikelihood, 0);
}

/** The log odds moved by `by`. */
const moved = (p: number, by: number): number => 1 / (1 + Math.exp(-(Math.log(p / (1 - p)) + by)));

const [one, two] = madeLogs(rules, { bench }, 2, seeded(0.9)).map(({ kase }) => kase);
const guesses = two!.answers.map((a) => ({ ...a, sure: 'guess' as const }));
const cases: readonly (readonly [string, Logged])[] = [
  ['a case of one round', { kase: one!, bench }],
  ['answers that are guesses', { kase: { ...two!, answers: guesses }, bench }],
  [
    'several changes, one of them kept',
    {
      kase: {
        ...one!,
        results: [
          { change: { name: 'front.rebound.low.open' }, outcome: 'worse', kept: false },
          { change: { name: 'rear.rebound.low.open' }, outcome: 'better', kept: true },
          { change: { name: 'front.spring.firmer' }, outcome: 'same', kept: false },
        ],
      },
      bench,
    },
  ],
];

describe('expected counts', () => {
  it.each(cases)('are the slope of the likelihood in every strength: %s', (_, logged) => {
    const table = strengthTable(model, strengths);
    const values = strengths.map((s) => s.value);
    const counts = { tosses: new Float64Array(table.size), hits: new Float64Array(table.size) };
    for (const o of observe(model, [logged]).observations)
      for (const g of observer(model)(o).genuine) countAnswers(model, table, values, g, counts);
    strengths.forEach((s, k) => {
      const at = (by: number): number => logLikelihood(withMoved(model, s, moved(s.value, by)), [logged]);
      const slope = (at(STEP) - at(-STEP)) / (2 * STEP);
      expect(counts.hits[k]! - counts.tosses[k]! * s.value, s.id).toBeCloseTo(slope, 6);
    });
  });

  it('of the causes, after less before, are the slope in every prior', () => {
    const [, logged] = cases[0]!;
    const [o] = observe(model, [logged]).observations;
    const { before, after } = observer(model)(o!).causes!;
    rules.causes.forEach((cause, c) => {
      const at = (by: number): number => {
        const odds = Float64Array.from(model.odds);
        odds[c]! *= Math.exp(by);
        return logLikelihood({ ...model, odds }, [logged]);
      };
      expect(after[c]! - before[c]!, cause.id).toBeCloseTo((at(STEP) - at(-STEP)) / (2 * STEP), 6);
    });
  });
});

describe('observations', () => {
  const { answers } = one!;
  const change = { name: 'front.rebound.low.open' };
  const better = { change, outcome: 'better', kept: true } as const;
  const worse = { change, outcome: 'worse', kept: false } as const;
  const seen = (results: readonly CaseResult[], last: readonly CaseResult[] = []) =>
    observe(model, [
      {
        kase: {
          ...one!,
          results: last,
          earlier: [
            { answers, results },
            { answers, results },
          ],
        },
        bench,
      },
    ]);

  it('take each round with an answer, and learn priors from the first alone', () => {
    const { observations, cases: behind, ridden } = seen([better]);
    expect(observations.map((o) => o.bench !== undefined)).toEqual([true, false, false]);
    expect([behind, ridden]).toEqual([1, 1]);
  });

  it('take what is said again of a bike that was put back once, with all that was ridden on it', () => {
    const { observations, cases: behind, ridden } = seen([worse], [better]);
    expect([behind, ridden]).toEqual([1, 1]);
    const [alone] = observe(model, [
      { kase: { ...one!, results: [worse, worse, better], earlier: [] }, bench },
    ]).observations;
    expect(observations).toHaveLength(1);
    expect(observations[0]!.bench).toBe(bench);
    expect(observations[0]!.groups).toEqual(alone!.groups);
    observations[0]!.outcomes.forEach((p, h) => expect(p).toBeCloseTo(alone!.outcomes[h]!, 12));
  });
});
