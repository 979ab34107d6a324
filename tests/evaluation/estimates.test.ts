import { describe, expect, it } from 'vitest';
import { disputed, pool } from '../../src/evaluation/estimates.ts';

const ESTIMATES = {
  'row.trend': {
    worse: {
      base: [5, 5, 5],
      agreed: [60, 60, 60],
      torn: [10, 50, 90],
      named: [50, 0, 0],
    },
  },
};

describe('estimates of several heads', () => {
  const of = Object.fromEntries(pool(ESTIMATES).map((p) => [p.id.split(' ').at(-1)!, p]));
  it('are pooled by the mean of their log odds: 10, 50 and 90 in a hundred make even odds', () => {
    expect(of['torn']!.pooled).toBeCloseTo(0.5, 12);
    expect(of['usually']!.pooled).toBeCloseTo(0.05, 12);
    // By hand: odds 1, 1/19 and 1/19, so (1/361)^(1/3) = 0.1404 to one.
    expect(of['named']!.pooled).toBeCloseTo(0.1404 / 1.1404, 4);
  });
  it('become links that leave out the base rate: noisy-OR with it gives the pooled chance back', () => {
    for (const cause of ['agreed', 'torn', 'named'])
      expect(1 - (1 - 0.05) * (1 - of[cause]!.strength)).toBeCloseTo(of[cause]!.pooled, 12);
    expect(of['usually']!.strength).toBeCloseTo(0.05, 12);
  });
  it('are disputed by the spread of the log odds: ±2.197 about 0 is a deviation of 2.197', () => {
    expect(of['agreed']!.spread).toBe(0);
    expect(of['torn']!.spread).toBeCloseTo(Math.log(9), 12);
    const list = disputed(ESTIMATES, [{ id: 'row.trend worse torn', value: 0.25, spots: [] }]);
    expect(list[0]).toMatchObject({ id: 'row.trend worse torn', inRules: 0.25 });
    expect(list.find((d) => d.id.endsWith('agreed'))!.inRules).toBeUndefined();
  });
  it('are held against the rule for both ends where they were told of one', () => {
    const told = { grip: { climbing: { 'rear.lever.closed@rear': [34, 0], 'rear.pivots.loose': [5, 9] } } };
    const list = disputed(told, [{ id: 'grip climbing {end}.lever.closed', value: 0.2, spots: [] }]);
    expect(list.map(({ id, inRules }) => [id, inRules])).toEqual([
      ['grip climbing rear.lever.closed@rear', 0.2],
      ['grip climbing rear.pivots.loose', undefined],
    ]);
  });
  it('need every head for every line of a sign', () => {
    expect(() => pool({ q: { a: { base: [5, 5], cause: [50, 40, 30] } } })).toThrow('q a: every line needs');
    expect(pool({ q: { a: { cause: [50, 50] } } })[0]!.pooled).toBeCloseTo(0.5, 12);
  });
});
