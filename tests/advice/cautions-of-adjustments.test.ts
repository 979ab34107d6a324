/** What each kind of work on the bike has to say beside itself. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../src/advice/cautions.ts';
import type { ChangeUnit } from '../../src/bike/change.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const of = (id: string, answers: Record<string, string> = {}): readonly string[] =>
  cautionsOf(
    rules.adjustments.find((a) => a.id === id)!,
    {
      answers: new Map(Object.entries(answers)),
      bike: () => undefined,
    },
  );

describe('an adjustment', () => {
  it.each([
    ['opens vents that may spit oil near a brake', 'front.lower-legs.vent', ['vent-oil']],
    ['takes a wheel out', 'rear.tread.replace', ['torque', 'tyre-limits']],
    [
      'takes a shock or a spring out',
      'rear.spring.heavier-coil',
      ['torque', 'rear.coil-out', 'coil-preload'],
    ],
    ['raises the frame', 'frame-position.higher', ['torque', 'rear.rides-higher']],
    ['lowers the frame', 'frame-position.lower', ['torque', 'rear.rides-lower']],
    [
      'turns bar and levers, and pulls at the hoses',
      'reach.longer',
      ['brakes-check', 'cockpit-torque', 'over-the-bars'],
    ],
    ['turns bar and levers', 'reach.shorter', ['brakes-check', 'cockpit-torque']],
    ['lowers the front', 'front.spring.softer', ['front.rides-lower', 'air-pressure']],
    ['raises the rear', 'rear.spring.firmer', ['rear.rides-higher', 'air-pressure']],
    ['counts clicks and reads pressures', 'service.compare', ['adjuster-stops', 'air-pressure']],
    ['turns a stem back', 'controls.fit', ['cockpit-torque', 'brakes-check']],
  ])('that %s says so', (_, id, cautions) => {
    expect(of(id)).toEqual(expect.arrayContaining(cautions));
  });

  it.each([
    ['setting', ['adjuster-stops', 'air-pressure']],
    ['spacer', ['air-pressure', 'air-out-first', 'pressurised']],
    ['cockpit', ['cockpit-torque', 'brakes-check']],
    ['tyre', ['tyre-limits']],
    [
      'several',
      [
        'adjuster-stops',
        'air-pressure',
        'air-out-first',
        'pressurised',
        'cockpit-torque',
        'brakes-check',
        'torque',
        'tyre-limits',
      ],
    ],
  ])('that puts back a changed %s has the cautions of that work', (change, cautions) => {
    const id = 'last-change.put-back';
    const extra = of(id, { 'recent-change': change }).filter((caution) => !of(id).includes(caution));
    expect(extra.toSorted()).toEqual(cautions.toSorted());
  });

  it('says with a few clicks of rebound nothing of a lower end, and with many it does', () => {
    const close = rules.adjustments.find(({ id }) => id === 'rear.rebound.low.close')!;
    const said = (by?: number, unit: ChangeUnit = 'clicks'): boolean =>
      cautionsOf(close, undefined, by === undefined ? undefined : { by, unit }).includes('rear.rides-lower');
    expect([said(-1), said(-3), said(-4), said()]).toEqual([false, false, true, true]);
    expect(cautionsOf(close, undefined, { by: -1, unit: 'clicks' })).toContain('rear.fast-return');
    // Of a lever with two places one is the whole way.
    expect(said(-1, 'positions')).toBe(true);
  });

  it('measures its step in the unit of the rule, whatever the gauge shows', () => {
    const softer = rules.adjustments.find(({ id }) => id === 'front.spring.softer')!;
    const wary = { ...softer, cautionsFrom: { 'front.rides-lower': 6 } };
    const said = (by: number, unit: ChangeUnit): boolean =>
      cautionsOf(wary, undefined, { by, unit }).includes('front.rides-lower');
    // 1 bar is 14.5 psi (1e5 Pa over 6894.757 Pa).
    expect([said(-5, 'psi'), said(-6, 'psi')]).toEqual([false, true]);
    expect([said(-0.4, 'bar'), said(-0.5, 'bar')]).toEqual([false, true]);
  });

  it('says nothing of a lower front where it goes up, nor of a higher rear where it goes down', () => {
    const down = rules.adjustments.filter(({ cautions }) => cautions.some((c) => c.endsWith('rides-lower')));
    const both = rules.adjustments.filter(({ cautions }) => cautions.some((c) => c.endsWith('rides-higher')));
    expect(down.length).toBeGreaterThan(8);
    expect(both.length).toBeGreaterThan(4);
    expect(both.filter((a) => down.includes(a)).map(({ id }) => id)).toEqual([]);
    for (const { id, change } of [...down, ...both])
      if (change?.setting.endsWith('.spring') === true)
        expect([id, down.some((a) => a.id === id)]).toEqual([id, change.by < 0]);
  });
});
