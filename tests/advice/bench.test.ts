import { describe, expect, it } from 'vitest';
import { chance } from '../../src/advice/help-harm.ts';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { exampleSheet } from '../bike/example.ts';
import { adjustmentOf, believing, model } from '../support/front-rules.ts';

const causeOf = (id: string): number => model.causeIndex.get(id)!;

describe('a bike made ready', () => {
  it('moves the partner of a knob by the share of the pack, or of the bike where its damper is known', () => {
    const open = adjustmentOf('front.rebound.low.open');
    const partner = causeOf('front.rebound.high.too-slow');
    const own = causeOf('front.rebound.low.too-slow');
    const share = (bench: ReturnType<typeof prepareBike>) =>
      [own, partner].map((c) => bench.effect(open).cures[c]);
    expect(share(prepareBike(model))).toEqual([1, model.rules.numbers.advice['low-on-high']]);
    const physics = { clicks: {}, crossTalk: { 'front.rebound.low': 0.21 } };
    expect(share(prepareBike(model, undefined, physics))).toEqual([1, 0.21]);
  });

  it('leaves what a click moves besides the partner to the pack', () => {
    const spring = model.rules.settings.findIndex((s) => s.id === 'front.spring');
    const softer = { setting: spring, toward: causeOf('front.spring.too-soft'), share: 0.3 };
    const open = adjustmentOf('front.rebound.low.open');
    const adjustments = model.rules.adjustments.map((a, i) =>
      i === open ? { ...a, moves: [...a.moves, softer] } : a,
    );
    const physics = { clicks: {}, crossTalk: { 'front.rebound.low': 0.21 } };
    const bench = prepareBike({ ...model, rules: { ...model.rules, adjustments } }, undefined, physics);
    expect(bench.effect(open).cures[causeOf('front.spring.too-firm')]).toBe(0.3);
    expect(bench.effect(open).cures[causeOf('front.rebound.high.too-slow')]).toBe(0.21);
  });

  it('takes a step of as many clicks as can be felt, each way its own', () => {
    const physics = { clicks: { 'front.rebound.low+': 3, 'front.rebound.low-': 4 }, crossTalk: {} };
    const { possible } = prepareBike(model, undefined, physics);
    expect(possible[adjustmentOf('front.rebound.low.open')]).toMatchObject({ step: { by: 3 } });
    expect(possible[adjustmentOf('front.rebound.low.close')]).toMatchObject({ step: { by: -4 } });
  });

  it('looks past the knobs of a bike only where one is missing', () => {
    const sheet = exampleSheet('all-knobs');
    expect(prepareBike(model).wished).toBeUndefined();
    expect(prepareBike(model, sheet).wished).toBeUndefined();
    const { 'rebound.low': _, ...adjusters } = sheet.ends.front.adjusters;
    const without = { ...sheet, ends: { ...sheet.ends, front: { ...sheet.ends.front, adjusters } } };
    const { wished, payoff } = prepareBike(model, without);
    expect(wished!.adjustments).toContain(adjustmentOf('front.rebound.low.open'));
    expect(payoff.adjustments).not.toContain(adjustmentOf('front.rebound.low.open'));
  });

  it('answers what a gate asks of the bike, and nothing without a sheet', () => {
    expect(prepareBike(model).fact('front.spring')).toBeUndefined();
    expect(prepareBike(model, exampleSheet('all-knobs')).fact('front.spring')).toBe('air');
  });

  it('feels as much of a fix in a spring step cut short as may be done at once, though less of it is done', () => {
    const PSI = 6894.757293;
    const soft = adjustmentOf('front.spring.softer');
    const adjustments = model.rules.adjustments.map((a, i) =>
      i === soft ? { ...a, end: 'front' as const, change: { ...a.change!, most: 20 } } : a,
    );
    const sheet = exampleSheet('all-knobs');
    const { spring } = sheet.ends.front;
    if (spring.kind !== 'air') throw new Error('the example has air in front');
    const { pressureMaker: _, ...without } = spring;
    const ends = { ...sheet.ends, front: { ...sheet.ends.front, spring: without } };
    const advice = { ...model.rules.numbers.advice, 'air-at-once': 0.2 };
    const rules = { ...model.rules, adjustments, numbers: { ...model.rules.numbers, advice } };
    const firm = causeOf('front.spring.too-firm');
    const { helped, nothing } = rules.numbers.results;
    const of = (needed: number) => {
      const physics = { clicks: {}, crossTalk: {}, springs: { front: { by: -needed * PSI } } };
      const bench = prepareBike({ ...model, rules }, { ...sheet, ends }, physics);
      const can = bench.possible[soft]!;
      const better = chance(believing({ 'front.spring.too-firm': 1 }), bench.prospect(soft).better);
      return {
        by: can.can ? can.step!.by : NaN,
        done: bench.effect(soft).cures[firm]!,
        felt: (better - nothing.better) / (helped.better - nothing.better),
      };
    };
    const now = spring.pressure! / PSI;
    const cut = of(40);
    expect(cut.by).toBe(-Math.floor(0.2 * now * 2) / 2);
    expect(cut.done).toBeCloseTo(-cut.by / 40, 9);
    expect(cut.felt).toBeCloseTo(-cut.by / (0.2 * now), 6);
    expect(of(10)).toMatchObject({ by: -10, done: 1 });
    expect(of(10).felt).toBeCloseTo(1, 9);
  });
});
