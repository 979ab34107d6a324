import { expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { CaseResult, Round } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { lessonsOf } from '../../src/casework/belief-shifts.ts';
import { model } from '../support/front-rules.ts';

const bench = prepareBike(model);
const rode = (change: string, outcome: CaseResult['outcome'], kept = false): CaseResult => ({
  change,
  outcome,
  kept,
});
const said = (question: string, answer: string): Round['answers'] => [{ question, answer, sure: 'sure' }];

const ROUNDS: readonly Round[] = [
  {
    answers: said('packs', 'yes'),
    results: [
      rode('front.rebound.low+2', 'worse'),
      rode('front.tyre+1psi', 'better'),
      rode('front.spring-5psi', 'same'),
    ],
  },
  { answers: said('loose', 'no'), results: [rode('front.rebound.low.close', 'better', true)] },
];

/** Belief after the first so many results of a round, thought through from the start. */
function believed(round: number, count: number): Float64Array {
  const { answers, results } = ROUNDS[round]!;
  const earlier = [...ROUNDS.slice(0, round), { answers, results: results.slice(0, count) }];
  return consult(
    model,
    bench,
    { id: 'x', answers: [], results: [], earlier },
    { next: false, explain: 0, fit: false },
  ).belief.causes;
}

it('says of each trial, in order, what it made likelier and what less so', () => {
  const lessons = lessonsOf(model, bench, ROUNDS);
  expect(lessons.map((l) => l.result)).toEqual(ROUNDS.flatMap((r) => r.results));
  ROUNDS.flatMap(({ results }, r) => results.map((_, i) => [r, i] as const)).forEach(([r, i], n) => {
    const [before, after] = [believed(r, i), believed(r, i + 1)];
    const moved = new Map(lessons[n]!.moved.map((m) => [m.cause, m]));
    model.rules.causes.forEach(({ id }, c) => {
      const notable = Math.abs(after[c]! - before[c]!) >= 0.03;
      expect(moved.has(id)).toBe(notable);
      if (!notable) return;
      expect(moved.get(id)!.before).toBeCloseTo(before[c]!, 10);
      expect(moved.get(id)!.after).toBeCloseTo(after[c]!, 10);
    });
  });
  const sizes = lessons[0]!.moved.map((m) => Math.abs(m.after - m.before));
  expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
  expect(sizes.length).toBeGreaterThan(1);
});

it('learns nothing from a change that no rule places', () => {
  const lessons = lessonsOf(model, bench, ROUNDS);
  expect(lessons.map((l) => l.placed)).toEqual([true, false, true, true]);
  expect(lessons[1]!.moved).toEqual([]);
});
