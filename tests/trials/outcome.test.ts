import { printDeed, readDeed } from '../../src/bike/deed.ts';
import { expect, test } from 'vitest';
import { judge } from '../../src/trials/judge.ts';
import { resultsOf, ratedTrials } from '../../src/trials/outcome.ts';
import { grounds } from '../../src/trials/verdict-words.ts';
import { change, planned, ridden, rode } from './invented.ts';

const results = (text: string, over = {}) => {
  const trial = rode(text, over);
  return resultsOf(trial, judge(trial));
};

test('a kept change is better and stays, by how many points and give or take what', () => {
  const [kept, ...others] = results('R4 R4 +6 R4 +6 +6 R4');
  expect(kept).toMatchObject({
    change: readDeed('front.rebound.low+2'),
    outcome: 'better',
    kept: true,
    trial: 't1',
  });
  expect(kept!.points).toBeCloseTo(2, 3);
  expect(kept!.error).toBeGreaterThan(0.1);
  expect(others).toEqual([]);
});

test('each side of the trial speaks', () => {
  expect(
    results('R4 R4 +6 -2 -2 +6 R4', { bothWays: true }).map((one) => [printDeed(one.change), one.outcome]),
  ).toEqual([
    ['front.rebound.low+2', 'better'],
    ['front.rebound.low-2', 'worse'],
  ]);
});

test.each([
  ['R4 R4 +2 R4 +2 +2 R4', 'worse', -2],
  ['R5 R5 +5 R5 +5 +5 R5', 'same', 0],
  ['R4 R4 +2 R4', 'worse', -2],
])('%s: %s, whatever the verdict', (text, outcome, points) => {
  const [one] = results(text);
  expect(one).toMatchObject({ outcome, kept: false });
  expect(one!.points).toBeCloseTo(points, 3);
});

test('a difference that is not worth having is none in words', () => {
  const runs = ridden('R5 R5 +5 R5 +5 +5 R5').map((run, i) =>
    i === 5 ? { ...run, ratings: { ...run.ratings, grip: 4 } } : run,
  );
  const trial = { ...planned(), hidden: true, ridden: runs };
  const [one] = resultsOf(trial, judge(trial));
  expect(one!.points).toBeLessThan(0);
  expect(one!.points).toBeGreaterThan(-0.25);
  expect(one!.outcome).toBe('same');
});

test('half a step keeps neither of the two that were ridden', () => {
  const halved = rode('R5 R5 +5 -1 -1 +5 R5', { bothWays: true });
  expect(judge(halved).verdict).toBe('half');
  expect(resultsOf(halved, judge(halved)).map((one) => one.kept)).toEqual([false, false]);
});

test('two runs on one setting say less than six', () => {
  expect(results('R4 R4 +2 R4')[0]!.error).toBeGreaterThan(1.3 * results('R4 R4 +2 R4 +2 +2 R4')[0]!.error);
});

test('what a rider adds who knew the setting is taken off, and makes it less certain', () => {
  const trial = rode('R4 R4 +6 R4 +6 +6 R4');
  const [hidden] = resultsOf(trial, judge(trial));
  for (const known of [
    { ...trial, hidden: false },
    { ...trial, hidden: undefined },
  ]) {
    const [open] = resultsOf(known as typeof trial, judge(known as typeof trial));
    expect(open!.points).toBeCloseTo(hidden!.points - 0.4, 2);
    expect(open!.error).toBeCloseTo(Math.hypot(hidden!.error, 0.4), 2);
  }
});

test('of trials that cannot be compared yet nothing is said', () => {
  expect(ratedTrials([planned(), rode('R4 +6'), rode('R4 R4 +6 R4', { id: 't2' })])).toMatchObject([
    { id: 't2', results: [{ change: readDeed('front.rebound.low+2') }] },
  ]);
});

test('a step is told without the dust that its difference leaves', () => {
  const bar = change({ setting: 'front.tyre', from: 1.5, to: 1.8, min: 1, max: 3, grain: 0.1, unit: 'bar' });
  const [one] = results('R4 R4 +6 R4 +6 +6 R4', { change: bar });
  expect(one!.change).toEqual({ changes: [{ setting: 'front.tyre', by: 0.3, unit: 'bar' }] });
});

test('an open trial with equal ratings made no difference: what belief may have added is no rating', () => {
  const trial = { ...planned(), hidden: false, ridden: ridden('R4 R4 +4 R4 +4 +4 R4') };
  const [one] = resultsOf(trial, judge(trial));
  expect(one!.points).toBeLessThan(-0.25);
  expect(one!.outcome).toBe('same');
});

test.each([
  ['R5 R5 +5 R5 +5 +5 R5', 'same'],
  ['R4 R4 +5 R5 +5 +4 R4', 'same'],
  ['R4 R4 +6 R4 +6 +6 R4', 'better'],
])('what a gauge kept is what it was rated, and never worse: %s is %s', (text, outcome) => {
  const [one] = results(text, { byGauge: true });
  expect(one).toMatchObject({ outcome, kept: true });
});

test('says of a trial what its verdict says', () => {
  const seen = { better: 0, same: 0, worse: 0 };
  for (const hidden of [true, false])
    for (const marks of ['3453', '2342', '4444', '2562', '5335', '6226', '2662', '3443', '4564', '6516']) {
      const [a, b, c, d] = marks;
      const trial = { ...rode(`R${a} +${b} +${c} R${d}`), hidden };
      const judged = judge(trial);
      const [told] = resultsOf(trial, judged);
      const said = grounds(trial, judged).join(' ');
      seen[told!.outcome]++;
      expect(/: worse\./.test(said), `${marks}: ${said}`).toBe(told!.outcome === 'worse');
      if (told!.outcome === 'better') expect(said, marks).toMatch(/: better/);
      if (/no clear difference/.test(said)) expect(told!.outcome, marks).toBe('same');
    }
  // None of the three goes untried.
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(0);
});
