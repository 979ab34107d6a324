import { expect, test } from 'vitest';
import { addRun, checkBegun, dropRun, keepBegun } from '../../src/trials/record.ts';
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
  expect(dropRun(rode('R4 R5')).ridden).toHaveLength(1);
});
