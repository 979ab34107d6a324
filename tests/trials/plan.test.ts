import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { planTrial } from '../../src/trials/plan.ts';
import { change, planned } from './invented.ts';

const arms = (over: Parameters<typeof change>[0]) =>
  Object.fromEntries(planned({ change: change(over) }).arms.map((arm) => [arm.name, arm.set]));

test('both directions are tried by the same step', () => {
  expect(arms({})).toEqual({ reference: 8, plus: 10, minus: 6 });
  expect(arms({ to: 5 })).toEqual({ reference: 8, plus: 11, minus: 5 });
});

test('a step that would pass the stop is shortened to it, and says so', () => {
  const trial = planned({ change: change({ from: 1, to: 3 }) });
  expect(trial.arms.find((arm) => arm.name === 'minus')?.set).toBe(0);
  expect(trial.notes.join()).toContain('only 1 click fits before the limit at 0');
});

test('at the stop the other direction is a sham at the reference', () => {
  const trial = planned({ change: change({ from: 16, to: 14 }) });
  expect(Object.fromEntries(trial.arms.map((arm) => [arm.name, arm.set]))).toEqual({
    reference: 16,
    minus: 14,
    sham: 16,
  });
  expect(trial.notes.join()).toContain('already stands at its limit');
});

test('without a written limit both directions are whole', () => {
  const { min, max, ...open } = change({ setting: 'rear.tyre', from: 24, to: 22, unit: 'psi', grain: 0.5 });
  expect([min, max]).toEqual([0, 16]);
  expect(
    planned({ change: open })
      .arms.map((arm) => arm.set)
      .sort(),
  ).toEqual([22, 24, 26]);
});

test('which direction comes first depends on the id alone, and is about even', () => {
  const firsts = Array.from({ length: 400 }, (_, i) => planned({ id: `pit-${i}` }).arms[1].name);
  const plus = firsts.filter((name) => name === 'plus').length;
  expect(plus).toBeGreaterThan(160);
  expect(plus).toBeLessThan(240);
  expect(planned({ id: 'pit-7' })).toEqual(planned({ id: 'pit-7' }));
});

test('no arm is ever outside the limits', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 20 }),
      fc.integer({ min: 0, max: 20 }),
      fc.string({ minLength: 1 }),
      (from, to, id) => {
        const plan = planTrial({ id, change: change({ from, to, max: 20 }) });
        const inside = plan.ok && plan.value.arms.every((arm) => arm.set >= 0 && arm.set <= 20);
        expect(inside).toBe(from !== to && id.trim() !== '');
      },
    ),
  );
});

test('a change that cannot be planned names every mistake with its remedy', () => {
  const plan = planTrial({ id: ' ', change: change({ from: 20, to: 21 }), feelings: [] });
  expect(plan.ok).toBe(false);
  if (plan.ok) return;
  expect(plan.problems.map((problem) => `${problem.code} ${problem.at}`)).toEqual([
    'id id',
    'outside change.from',
    'outside change.to',
    'feelings feelings',
  ]);
  expect(plan.problems.every((problem) => problem.remedy !== '')).toBe(true);
});

test('a step that the adjuster cannot make is refused', () => {
  const half = planTrial({ id: 'a', change: change({ to: 8.5 }) });
  expect(half.ok ? [] : half.problems.map((problem) => problem.code)).toEqual(['grain']);
  const none = planTrial({ id: 'a', change: change({ to: 8 }) });
  expect(none.ok ? [] : none.problems.map((problem) => problem.code)).toEqual(['no-step']);
});
