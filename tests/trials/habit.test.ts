import { expect, test } from 'vitest';
import { laterHabit } from '../../src/trials/habit.ts';
import { fitPreference } from '../../src/trials/preference.ts';
import { rode } from './invented.ts';

test('a rider who rates every later run higher has the habit', () => {
  const trials = ['a', 'b', 'c'].map((id) => rode('R2 R2 +3 R4 -5 R6', { id }));
  const habit = laterHabit(trials)!;
  expect(habit).toMatchObject({ pairs: 12, laterBetter: 12 });
  expect(habit.chance).toBeGreaterThan(0.95);
});

test('a rider who rates the settings, not the order, has not', () => {
  const trials = ['a', 'b', 'c'].map((id) => rode('R4 R4 +6 R4 -2 R4', { id }));
  expect(laterHabit(trials)!.chance).toBeGreaterThan(0.2);
  expect(laterHabit(trials)!.chance).toBeLessThan(0.8);
});

test('a single trial says nothing about a habit', () => {
  expect(laterHabit([rode('R4 R4 +6 R4 -2 R4')])).toBeNull();
});

test('comparisons that all go one way do not settle without a prior', () => {
  const all = [{ first: 'a', second: 'b', secondWins: 5, firstWins: 0 }];
  expect(fitPreference(all, { order: false })).toBeNull();
  expect(fitPreference(all, { order: false, priorSd: 1.5 })!.ability['a']).toBeLessThan(0);
});
