import { readDeed } from '../../src/bike/deed.ts';
import { expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { Case, CaseResult, Round } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { lessonsOf } from '../../src/casework/belief-shifts.ts';
import { model } from '../support/front-rules.ts';

const bench = prepareBike(model);
const rode = (change: string, outcome: CaseResult['outcome'], kept = false): CaseResult => ({
  change: readDeed(change),
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

/** A case of some rounds. */
const told = (rounds: readonly Round[]): Case => ({
  id: 'x',
  ...rounds.at(-1)!,
  earlier: rounds.slice(0, -1),
});

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
  const lessons = lessonsOf(model, bench, told(ROUNDS));
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
  const lessons = lessonsOf(model, bench, told(ROUNDS));
  expect(lessons.map((l) => l.placed)).toEqual([true, false, true, true]);
  expect(lessons[1]!.moved).toEqual([]);
});

it('goes on from what counts after the round: what it says again counts once, and what was tried before it too', () => {
  const failed = rode('front.rebound.low+2', 'worse');
  const tried = [{ change: readDeed('front.rebound.low-2'), result: 'better', putBack: 'yes' }] as const;
  const twice = told([
    { answers: said('packs', 'yes'), results: [failed] },
    { tried, answers: said('packs', 'yes'), results: [failed] },
  ]);
  const causes = consult(model, bench, twice, { next: false, explain: 0, fit: false }).belief.causes;
  const moved = lessonsOf(model, bench, twice).at(-1)!.moved;
  expect(moved.length).toBeGreaterThan(0);
  for (const { cause, after } of moved) expect(after).toBeCloseTo(causes[model.causeIndex.get(cause)!]!, 10);
});
