import { expect, test } from 'vitest';
import { blocks, counted, nextArm, runsLeft, upcoming, warmUp } from '../../src/trials/sequence.ts';
import { planned, ridden, rode } from './invented.ts';

const letters = (arms: readonly string[]) =>
  arms.map((arm) => ({ reference: 'R', plus: '+', minus: '-', sham: 'S' })[arm]).join('');
const overall = (runs: readonly { ratings: Readonly<Record<string, number>> }[]) =>
  runs.map((run) => run.ratings['overall']);

test('the plan is a run to warm up, then step, reference, step, reference, reference, step', () => {
  expect(letters(upcoming(planned(), 7))).toBe('R+R+RR+');
  expect(letters(upcoming(planned({ bothWays: true }), 7))).toBe('R+-R-R+');
});

test('the warm-up is no run of the block', () => {
  expect(nextArm(rode('R4'))).toBe('plus');
  expect(nextArm(rode('R4 R4'))).toBe('plus');
  expect(overall(counted({ ridden: ridden('R1 R3 R4 +5 R6') }))).toEqual([4, 5, 6]);
  expect(warmUp({ ridden: ridden('R1 R3 R4 +5 R6') })?.ratings['overall']).toBe(3);
  expect(warmUp({ ridden: ridden('R4 +5 R6') })?.ratings['overall']).toBe(4);
  expect(warmUp({ ridden: [] })).toBeUndefined();
});

test('a rider who rides the reference on before the change warms up longer, and the block begins with its last run', () => {
  expect(letters(upcoming(rode('R4 R4'), 5))).toBe('++R+R');
  expect(runsLeft(rode('R4 R4 R4'))).toBe(5);
  expect(overall(counted({ ridden: ridden('R1 R2 R3 +5') }))).toEqual([3, 5]);
});

test('a block that is under way is finished in the best order of its own, not of two blocks', () => {
  expect(letters(upcoming(rode('R4 R4 +5 R4 +5'), 2))).toBe('+R');
});

test('runs left: down to 0 at the end of each block, up again when another is begun', () => {
  expect(
    ['', 'R4', 'R4 R4', 'R4 R4 +5'].map((text) => runsLeft(text === '' ? planned() : rode(text))),
  ).toEqual([7, 6, 5, 4]);
  expect(runsLeft(rode('R4 R4 +5 R4 +5 +5 R4'))).toBe(0);
  expect(runsLeft(rode('R4 R4 +5 R4 +5 +5 R4 R4'))).toBe(5);
  // A block without the other direction does not finish a trial both ways.
  expect(runsLeft(rode('R4 R4 +5 R4 +5 +5 R4', { bothWays: true }))).toBe(6);
});

test('a short trial is four runs in turn, the first of them counts, and more go on in turn', () => {
  const short = { short: true };
  expect(letters(upcoming(planned(short), 6))).toBe('R+R+R+');
  expect(['R4', 'R4 +5 R4', 'R4 +5 R4 +5'].map((text) => runsLeft(rode(text, short)))).toEqual([3, 1, 0]);
  expect(overall(counted({ ridden: ridden('R4'), short: true }))).toEqual([4]);
  expect(blocks({ ridden: ridden('R4 +5 R4 +5'), short: true })).toBe(1);
  expect(planned({ short: true, bothWays: true }).short).toBeUndefined();
});

test('blocks are counted when they are full', () => {
  expect(blocks({ ridden: ridden('R4 R4 +5 R4 +5 +5') })).toBe(0);
  expect(blocks({ ridden: ridden('R4 R4 +5 R4 +5 +5 R4') })).toBe(1);
  expect(blocks({ ridden: ridden('R4 R4 +5 R4 +5 +5 R4 R4 +5 R4 +5 R4 +5') })).toBe(2);
});
