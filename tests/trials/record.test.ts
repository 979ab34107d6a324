import { expect, test } from 'vitest';
import { addRun, dropRun } from '../../src/trials/record.ts';
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

test('a closed trial takes no more runs', () => {
  const added = addRun({ ...planned(), verdict: 'keep' }, run('plus', 5));
  expect(added.ok ? '' : added.problems[0]!.code).toBe('closed');
});

test('the last run can be dropped', () => {
  expect(dropRun(rode('R4 R5')).ridden).toHaveLength(1);
});
