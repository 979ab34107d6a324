import { expect, it } from 'vitest';
import { REASONS, reasonIn } from '../../src/rulebase/reasons.ts';
import { baseRules } from '../support/base-rules.ts';

it('are all in the built-in pack, each the middle of a sentence', () => {
  const { reasons } = baseRules().rules;
  expect(Object.keys(reasons).toSorted()).toEqual([...REASONS].toSorted());
  for (const text of Object.values(reasons)) expect(text).toMatch(/^[a-z{].*[^.]$/);
});

it('take what the bike has in the place of a name, and leave a name that nobody knows', () => {
  const reasons = { 'near-most': 'never above {most} (now {now}, {most} at most); {odd}' };
  expect(reasonIn(reasons, 'near-most', { most: '130 psi', now: 0 })).toBe(
    'never above 130 psi (now 0, 130 psi at most); {odd}',
  );
});

it('are their keys in words where a pack has none', () => {
  expect(reasonIn({}, 'in-one-go')).toBe('in one go');
  expect(reasonIn(undefined, 'measure-first')).toBe('measure first');
});
