import { expect, test } from 'vitest';
import { counted, nextArm, runsLeft, settled, upcoming } from '../../src/trials/sequence.ts';
import type { Trial } from '../../src/trials/trial.ts';
import { planned, ridden, rode } from './invented.ts';

/** A trial whose id puts plus first. */
const plusFirst = Array.from({ length: 20 }, (_, i) => `t${i}`).find(
  (id) => planned({ id }).arms[1].name === 'plus',
)!;
const letters = (arms: readonly string[]) =>
  arms.map((arm) => ({ reference: 'R', plus: '+', minus: '-', sham: 'S' })[arm]).join('');
const after = (text: string): Trial => rode(text, { id: plusFirst });

test('the plan is two reference runs, then each direction followed by the reference, then the order turned round', () => {
  expect(letters(upcoming(planned({ id: plusFirst }), 14))).toBe('RR+R-R-R+R+R-R');
});

test('the first change waits for a steady reference, but not for ever', () => {
  expect(settled(ridden('R4'))).toBe(false);
  expect(settled(ridden('R4 R5'))).toBe(false);
  expect(settled(ridden('R4 R5 R5'))).toBe(true);
  expect(settled(ridden('R4 R5 R4 R5'))).toBe(true);
  expect(nextArm(after('R4 R5'))).toBe('reference');
  expect(nextArm(after('R4 R4'))).toBe('plus');
});

test('every change is followed by the reference', () => {
  expect(nextArm(after('R4 R4 +5'))).toBe('reference');
  expect(nextArm(after('R4 R4 +5 R4'))).toBe('minus');
  expect(nextArm(after('R4 R4 +5 R4 -3'))).toBe('reference');
});

test('a second block turns the order round', () => {
  expect(nextArm(after('R4 R4 +5 R4 -3 R4'))).toBe('minus');
  expect(nextArm(after('R4 R4 +5 R4 -3 R4 -3 R4'))).toBe('plus');
});

test('only the last settling run counts', () => {
  expect(counted(ridden('R1 R3 R4 +5 R4')).map((run) => run.ratings['overall'])).toEqual([4, 5, 4]);
});

test('runs left: down to 0 at the end of each block, up again when another is begun', () => {
  expect(runsLeft(after('R4'))).toBe(5);
  expect(runsLeft(after('R4 R4'))).toBe(4);
  expect(runsLeft(after('R4 R5'))).toBe(5);
  expect(runsLeft(after('R4 R4 +5 R4 -3'))).toBe(1);
  expect(runsLeft(after('R4 R4 +5 R4 -3 R4'))).toBe(0);
  expect(runsLeft(after('R4 R4 +5 R4 -3 R4 -3'))).toBe(3);
});

test('a rider who leaves the plan is led back to equal counts', () => {
  expect(nextArm(after('R4 R4 +5 +5'))).toBe('reference');
  expect(letters(upcoming(after('R4 R4 +5 +5 R4'), 4))).toBe('-R-R');
});
