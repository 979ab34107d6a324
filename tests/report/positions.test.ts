/** A switch is moved from one name to another, never by a number of positions. */
import { expect, it } from 'vitest';
import { withStep } from '../../src/report/phrases.ts';
import { possible } from '../../src/advice/feasibility.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const open = rules.adjustments.find((a) => a.change?.unit === 'positions' && a.end === 'front')!;
const sheetWith = (lever: unknown) =>
  readSheet(
    {
      bike: 1,
      id: 'x',
      kind: 'trail',
      front: { travel: 140, spring: { kind: 'air' }, [open.change!.setting.slice('front.'.length)]: lever },
      rear: { travel: 130, spring: { kind: 'air' } },
    },
    rules.adjusters,
  ).sheet!;

it.each([
  [{ by: 2, from: 0, to: 2, positions: ['closed', 'middle', 'open'] }, ': closed → open'],
  [{ by: -1, from: 1, to: 0, positions: ['low', 'high'] }, ': high → low'],
  [{ by: 2, from: null, to: null, positions: null }, ''],
])('is said as %j', (step, words) => {
  expect(withStep({ unit: 'positions', amount: null, ...step })).toBe(words);
});

it('goes as far as this bike has positions, and no further', () => {
  expect(possible(open, sheetWith('closed'))).toMatchObject({
    can: true,
    step: { from: 0, to: 2, names: ['closed', 'middle', 'open'] },
  });
  const two = possible(open, sheetWith({ now: 'closed', positions: ['closed', 'open'] }));
  expect(two).toMatchObject({ can: true, step: { by: 1, to: 1, names: ['closed', 'open'] } });
  expect(two).not.toHaveProperty('note');
  const { reasons } = rules;
  const none = undefined;
  expect(possible(open, sheetWith('open'), none, none, none, { reasons })).toMatchObject({
    can: false,
    why: 'it is at open',
  });
});
