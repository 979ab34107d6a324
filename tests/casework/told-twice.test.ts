/** A trial that failed is weighed alike, whether it stands in the same case or the same answers are given again after it. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { printDeed, readDeed } from '../../src/bike/deed.ts';
import type { Case, CaseAnswer, CaseResult, Round } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { exampleSheet } from '../bike/example.ts';
import { baseRules } from '../support/base-rules.ts';
import { answersOf, bench, caseOf, model } from '../support/told.ts';

const bikes = [bench, prepareBike(model, exampleSheet('all-knobs'))];
const told = (on: typeof bench, kase: Case) => {
  const { belief, none, impression, advice } = consult(model, on, kase, {
    next: false,
    explain: 0,
    fit: false,
  });
  return {
    causes: [...belief.causes],
    none,
    impression,
    ranked: advice.ranked.map((r) => r.adjustment),
    advice,
  };
};
type Told = ReturnType<typeof told>;

/** How far the figures lie apart at most: the same products in another order differ in their last bits. */
function apart(one: Told, other: Told): number {
  const figures = ({ causes, none, impression }: Told) => [...causes, none, impression];
  const others = figures(other);
  return Math.max(...figures(one).map((p, i) => Math.abs(p - others[i]!)));
}

const advised = ({ advice: { verdict, first }, ranked }: Told) => ({ verdict, first, ranked });

const checks = baseRules().checks.filter(({ bike }) => bike === undefined);
const given = fc.constantFrom(...checks).map((check): CaseAnswer[] =>
  Object.entries(check.given).map(([question, said]) => ({
    question,
    answer: typeof said === 'string' ? said : said.answer,
    sure: 'sure',
  })),
);
const failed = fc.record({
  change: fc
    .constantFrom('front.rebound.high+2', 'rear.rebound.low-2', 'front.compression.low-2')
    .map(readDeed),
  outcome: fc.constantFrom('same' as const, 'worse' as const),
  kept: fc.constant(false),
});
/** One or two trials, of two steps. */
const trials = fc.uniqueArray(failed, {
  minLength: 1,
  maxLength: 2,
  selector: ({ change }) => printDeed(change),
});

it('the same answers again after each trial that failed come to the figures of one case', () => {
  fc.assert(
    fc.property(fc.constantFrom(...bikes), given, trials, (on, answers, results) => {
      const inOne: Case = { id: 'x', answers, results, earlier: [] };
      const earlier = results.map((result): Round => ({ answers, results: [result] }));
      const [one, anew] = [told(on, inOne), told(on, { ...inOne, results: [], earlier })];
      expect(apart(one, anew)).toBeLessThan(1e-9);
      expect(advised(anew)).toEqual(advised(one));
    }),
    { numRuns: 25 },
  );
});

it('what an earlier round alone answered counts for and against none of these too', () => {
  const first = { complaint: 'rows', 'hit-pattern': 'row', 'return-speed@front': 'deep' };
  const later = { 'push-return@front': 'creeps' };
  const result: CaseResult = { change: readDeed('front.rebound.low+2'), outcome: 'worse', kept: false };
  const one = told(bench, caseOf({ ...first, ...later }, { results: [result] }));
  const anew = told(bench, caseOf(later, { earlier: [{ answers: answersOf(first), results: [result] }] }));
  expect(apart(one, anew)).toBeLessThan(1e-9);
  expect(advised(anew)).toEqual(advised(one));
});

it('what was ridden before a change that stayed says nothing of what is off now and unknown', () => {
  const said = { complaint: 'rows', 'hit-pattern': 'row', 'return-speed@front': 'deep' };
  const result: CaseResult = { change: readDeed('front.rebound.high+2'), outcome: 'worse', kept: false };
  const earlier = [{ answers: answersOf(said), results: [result] }];
  const stands = told(bench, caseOf(said, { earlier }));
  const changed = told(bench, caseOf(said, { earlier, changed: true }));
  expect(stands.none).toBeGreaterThan(1.5 * changed.none);
});
