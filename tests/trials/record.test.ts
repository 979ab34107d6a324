import { expect, test } from 'vitest';
import { addRun, checkBegun, dropRun, keepBegun, ratedWorst } from '../../src/trials/record.ts';
import type { ArmName } from '../../src/trials/trial.ts';
import { planned, rode, run } from './invented.ts';

test('a run is added, and the trial passed in stays as it was', () => {
  const trial = planned();
  const added = addRun(trial, run('reference', 4, { seconds: 92.5, note: 'wet' }));
  expect(added.ok && added.value.ridden).toEqual([run('reference', 4, { seconds: 92.5, note: 'wet' })]);
  expect(trial.ridden).toEqual([]);
});

test('every mistake of a run is named at once', () => {
  const added = addRun(planned(), { arm: 'sham', ratings: { grip: 8, fun: 3, calm: 2.5 }, seconds: -1 });
  expect(added.ok ? [] : added.problems.map((problem) => `${problem.code} ${problem.at}`)).toEqual([
    'unknown-arm arm',
    'rating ratings.grip',
    'unknown-feeling ratings.fun',
    'rating ratings.calm',
    'seconds seconds',
  ]);
});

test('a run without any rating is refused', () => {
  const added = addRun(planned(), { arm: 'plus', ratings: {} });
  expect(added.ok ? '' : added.problems[0]!.code).toBe('no-rating');
});

test('what was told of a run in part is gone when the run is there, and is checked like one', () => {
  const begun = keepBegun(planned(), { arm: 'plus', ratings: { grip: 4 } });
  expect(begun.begun).toEqual({ arm: 'plus', ratings: { grip: 4 } });
  const added = addRun(begun, run('plus', 4));
  expect(added.ok && 'begun' in added.value).toBe(false);
  expect(checkBegun(planned(), { ratings: {} })).toEqual([]);
  expect(
    checkBegun(planned(), { arm: 'sham', ratings: { grip: 9 }, seconds: 0 }).map(({ at }) => at),
  ).toEqual(['arm', 'ratings.grip', 'seconds']);
});

test('a closed trial takes no more runs', () => {
  const added = addRun({ ...planned(), verdict: 'keep' }, run('plus', 5));
  expect(added.ok ? '' : added.problems[0]!.code).toBe('closed');
});

test('the last run can be dropped', () => {
  const trial = { ...rode('R4 R5'), begun: { arm: 'plus' as const, ratings: { grip: 4 } } };
  expect(dropRun(trial).ridden).toHaveLength(1);
  // What was told of the third run is of no run any more.
  expect(dropRun(trial)).not.toHaveProperty('begun');
});

test('the worst mark counts with the step in, in the last run and in the one told in part', () => {
  const worst = (arm: ArmName, value: number) => ({ arm, ratings: { calm: value } });
  expect(ratedWorst({ ridden: [worst('plus', 1)] })).toBe(true);
  expect(ratedWorst({ ridden: [worst('minus', 1)] })).toBe(true);
  expect(ratedWorst({ ridden: [], begun: worst('plus', 1) })).toBe(true);
  expect(ratedWorst({ ridden: [worst('plus', 2)] })).toBe(false);
  expect(ratedWorst({ ridden: [worst('sham', 1)] })).toBe(false);
  expect(ratedWorst({ ridden: [worst('plus', 1), worst('reference', 1)] })).toBe(false);
});
