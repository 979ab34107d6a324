import { expect, test } from 'vitest';
import { judge } from '../../src/trials/judge.ts';
import { resultsOf } from '../../src/trials/outcome.ts';
import { changeName } from '../../src/trials/trial.ts';
import { change, rode } from './invented.ts';

const results = (text: string, over = {}) => {
  const trial = rode(text, over);
  return resultsOf(trial, judge(trial)).sort((a, b) => a.change.localeCompare(b.change));
};

test('a kept change is better and stays; the direction that was clearly worse says so too', () => {
  expect(results('R4 R4 +6 R4 -1 R4')).toEqual([
    { change: 'front.rebound.low-2', outcome: 'worse', kept: false, trial: 't1' },
    { change: 'front.rebound.low+2', outcome: 'better', kept: true, trial: 't1' },
  ]);
});

test('no difference worth having is evidence of its own', () => {
  expect(results('R5 R5 +5 R5 -5 R5 -5 R5 +5 R5').map((one) => one.outcome)).toEqual(['same', 'same']);
});

test('what nobody can tell is no evidence', () => {
  expect(results('R4 R4 +5 R5 -4 R4')).toEqual([]);
});

test('a sham says nothing about a setting', () => {
  const atStop = { change: change({ from: 0, to: 2 }) };
  expect(results('R3 R3 +6 R3 S3 R3', atStop).map((one) => one.change)).toEqual(['front.rebound.low+2']);
});

test('changes are named as in case files', () => {
  expect(changeName('rear.spring', -5, 'psi')).toBe('rear.spring-5psi');
  expect(changeName('front.tyre', 0.1 + 0.2, 'bar')).toBe('front.tyre+0.3bar');
});
