import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { planTrial } from '../../src/trials/plan.ts';
import { baseRules } from '../support/base-rules.ts';
import { change, FEELINGS, planned } from './invented.ts';

const arms = (over: Parameters<typeof change>[0], bothWays = true) =>
  planned({ change: change(over), bothWays }).arms.map((arm) => `${arm.name} ${arm.set}`);
const codes = (over: Partial<Parameters<typeof planTrial>[0]>) => {
  const plan = planTrial({ id: 't', change: change(), feelings: FEELINGS, ...over });
  return plan.ok ? [] : plan.problems.map((problem) => `${problem.code} ${problem.at}`);
};

test('the plan is the advised step against the reference, and nothing else', () => {
  expect(arms({}, false)).toEqual(['reference 8', 'plus 10']);
  expect(arms({ to: 5 }, false)).toEqual(['reference 8', 'minus 5']);
});

test('on request the other direction too, by the same step, after the advised one', () => {
  expect(arms({})).toEqual(['reference 8', 'plus 10', 'minus 6']);
  expect(arms({ to: 5 })).toEqual(['reference 8', 'minus 5', 'plus 11']);
  const { min, max, ...open } = change({ setting: 'rear.tyre', from: 24, to: 22, unit: 'psi', grain: 0.5 });
  expect([min, max]).toEqual([0, 16]);
  expect(planned({ change: open, bothWays: true }).arms.map((arm) => arm.set)).toEqual([24, 22, 26]);
});

test('the other direction stops short of the limit, and says so', () => {
  const { reasons } = baseRules().rules;
  const close = planned({ change: change({ from: 2, to: 4 }), bothWays: true, reasons });
  expect(close.arms[2]).toEqual({ name: 'minus', set: 1 });
  expect(close.notes.join()).toContain('goes to 1 click from closed and no further');
  expect(planned({ change: change({ from: 3, to: 5 }), bothWays: true }).arms[2]?.set).toBe(1);
  expect(planned({ change: change({ from: 3, to: 5 }), bothWays: true }).notes).toEqual([]);
});

test.each([0, 1, 15, 16])('at %i of 0 to 16 there is no other direction to ride', (from) => {
  const to = from < 8 ? from + 2 : from - 2;
  expect(codes({ change: change({ from, to }), bothWays: true })).toEqual(['other-way change.from']);
  expect(codes({ change: change({ from, to }) })).toEqual([]);
});

test('no arm is ever outside the limits, and the other direction never at one', () => {
  const knob = fc.integer({ min: 0, max: 20 });
  fc.assert(
    fc.property(knob, knob, fc.boolean(), (from, to, bothWays) => {
      const plan = planTrial({
        id: 't',
        change: change({ from, to, max: 20 }),
        feelings: FEELINGS,
        bothWays,
      });
      if (!plan.ok) return;
      const [, step, other] = plan.value.arms;
      expect(step.set).toBe(to);
      if (other === undefined) return;
      expect(other.set).toBeGreaterThan(0);
      expect(other.set).toBeLessThan(20);
      expect(Math.abs(other.set - from)).toBeLessThanOrEqual(Math.abs(to - from));
      expect(Math.sign(other.set - from)).toBe(-Math.sign(to - from));
    }),
  );
});

test('the order does not hang on the name', () => {
  const names = Array.from(
    { length: 50 },
    (_, i) => planned({ id: `pit-${i}`, bothWays: true }).arms[1].name,
  );
  expect(new Set(names)).toEqual(new Set(['plus']));
});

test('what was expected, the notes and the feelings go with the trial', () => {
  const trial = planned({ notes: ['tried before'], chances: { helps: 0.6, harms: 0.1 } });
  expect(trial).toMatchObject({ notes: ['tried before'], chances: { helps: 0.6, harms: 0.1 } });
  expect(trial.feelings).toEqual(FEELINGS);
});

test('a change that cannot be planned names every mistake with its remedy', () => {
  const plan = planTrial({ id: ' ', change: change({ from: 20, to: 21 }), feelings: [] });
  expect(plan.ok ? [] : plan.problems.map((problem) => `${problem.code} ${problem.at}`)).toEqual([
    'id id',
    'outside change.from',
    'outside change.to',
    'feelings feelings',
  ]);
  expect(plan.ok ? [] : plan.problems.filter((problem) => problem.remedy === '')).toEqual([]);
});

test('a step that the adjuster cannot make is refused', () => {
  expect(codes({ change: change({ to: 8.5 }) })).toEqual(['grain change.to']);
  expect(codes({ change: change({ to: 8 }) })).toEqual(['no-step change.to']);
});
