import { readDeed } from '../../src/bike/deed.ts';
import { describe, expect, it } from 'vitest';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { bikeFromSheet } from '../../src/physics/bike/from-sheet.ts';
import { physicsOf } from '../../src/advice/physics.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { baseModel } from '../support/base-rules.ts';
import { riddenEffect } from '../../src/casework/trial-effect.ts';
import { model } from '../support/front-rules.ts';

const bench = prepareBike(model);
const LASTS = model.rules.numbers.results['one-step'];
const PSI_A_BAR = 14.503773773; // 1e5 Pa over 6894.757293168 Pa

const cured = (change: string, cause: string): number | undefined =>
  riddenEffect(model, bench, readDeed(change))?.cures[model.causeIndex.get(cause)!];
const brought = (change: string, cause: string): number | undefined =>
  riddenEffect(model, bench, readDeed(change))?.brings[model.causeIndex.get(cause)!];

describe('a change that was ridden', () => {
  it('does what the adjustment does that turns the same knob the same way', () => {
    expect(cured('front.rebound.low+2', 'front.rebound.low.too-slow')).toBe(1);
    expect(brought('front.rebound.low+2', 'front.rebound.low.too-fast')).toBe(1);
    expect(cured('front.rebound.low-2', 'front.rebound.low.too-fast')).toBe(1);
    expect(cured('front.rebound.low-2', 'front.rebound.low.too-slow')).toBe(0);
  });

  it('does a share of it when the step was smaller, and no more than all of it when it was larger', () => {
    expect(cured('front.rebound.low+1', 'front.rebound.low.too-slow')).toBe(0.5);
    expect(brought('front.rebound.low+1', 'front.rebound.low.too-fast')).toBe(0.5);
    expect(cured('front.rebound.low+8', 'front.rebound.low.too-slow')).toBe(1);
  });

  it('is measured in one unit, whatever it was said in', () => {
    expect(cured('front.spring-5psi', 'front.spring.too-firm')).toBe(1);
    expect(cured('front.spring-0.1bar', 'front.spring.too-firm')).toBeCloseTo((0.1 * PSI_A_BAR) / 5, 6);
  });

  it('of several parts does what each of them does', () => {
    const both = 'front.rebound.low+2,front.spring-5psi';
    expect(cured(both, 'front.rebound.low.too-slow')).toBe(1);
    expect(cured(both, 'front.spring.too-firm')).toBe(1);
  });

  it('may be named by its adjustment; a step may have been too small for good, a repair is whole', () => {
    expect(riddenEffect(model, bench, readDeed('front.rebound.low.open'))?.lasts).toBe(LASTS);
    expect(riddenEffect(model, bench, readDeed('front.rebound.low+2'))?.lasts).toBe(LASTS);
    expect(riddenEffect(model, bench, readDeed('front.seals.service'))?.lasts).toBeUndefined();
  });

  it.each(['front.spring+5psi', 'rear.rebound.low+2', 'front.rebound.low+2,front.tyre+1psi', 'nonsense'])(
    'is not placed where no adjustment of the rules does that: %s',
    (change) => {
      expect(riddenEffect(model, bench, readDeed(change))).toBeUndefined();
    },
  );
});

describe('a step of a spring whose sag was measured', () => {
  const base = baseModel();
  const soft = base.causeIndex.get('front.spring.too-soft')!;
  /** A fork that sags too far. */
  const forkAt = (pressure: number, sag: number) => {
    const sheet = readSheet({
      bike: 1,
      id: 'x',
      kind: 'enduro',
      units: { pressure: 'psi' },
      'rider-mass': 80,
      front: {
        travel: '160 mm',
        spring: { kind: 'air', pressure: `${pressure} psi` },
        sag: { measured: `${sag}%`, wanted: '20%' },
      },
      rear: { travel: '160 mm', spring: { kind: 'air' } },
    }).sheet!;
    const physics = physicsOf(bikeFromSheet(sheet), sheet);
    const needed = physics.springs!.front!.by / 6894.757293168;
    return { needed, on: prepareBike(base, sheet, physics) };
  };
  const firmer = base.rules.adjustments.findIndex(({ id }) => id === 'front.spring.firmer');
  const cures = (on: ReturnType<typeof prepareBike>, change: string): number =>
    riddenEffect(base, on, readDeed(change))!.cures[soft]!;

  it('does as much of the fix as it is of what the sag asks for', () => {
    const { needed, on } = forkAt(100, 25);
    expect(needed).toBeGreaterThan(8);
    expect(cures(on, 'front.spring+4psi')).toBeCloseTo(4 / needed, 6);
    expect(cures(on, `front.spring+${Math.ceil(needed)}psi`)).toBe(1);
  });

  it('is advised as no more of the fix than it is, where it is cut short', () => {
    const { needed, on } = forkAt(60, 32);
    const can = on.possible[firmer]!;
    const step = can.can ? can.step!.by : 0;
    expect(step).toBeGreaterThan(0);
    expect(step).toBeLessThanOrEqual(12);
    expect(needed).toBeGreaterThan(step + 1);
    expect(on.effect(firmer).cures[soft]).toBeCloseTo(step / needed, 6);
  });

  /** A bike with this spring behind. */
  const withRear = (spring: object) =>
    prepareBike(
      base,
      readSheet({
        bike: 1,
        id: 'x',
        kind: 'enduro',
        front: { travel: '160 mm', spring: { kind: 'air' } },
        rear: { travel: '160 mm', spring },
      }).sheet!,
    );
  const COIL = { kind: 'coil', rate: '80 N/mm' };
  const curesRear = (on: PreparedBike, change: string): number =>
    riddenEffect(base, on, readDeed(change))!.cures[base.causeIndex.get('rear.spring.too-soft')!]!;

  it('of a collar is measured by the rule for turns', () => {
    const on = withRear(COIL);
    const rear = base.causeIndex.get('rear.spring.too-soft')!;
    const more = base.rules.adjustments.findIndex(({ id }) => id === 'rear.spring.preload-more');
    const turned = curesRear(on, 'rear.spring+1turns');
    expect(turned).toBe(on.effect(more).cures[rear]);
    expect(turned).toBeGreaterThan(0.1);
    // A turn is as many millimetres as the sheet says, else one.
    expect(curesRear(on, 'rear.spring+0.5mm')).toBeCloseTo(turned / 2, 9);
    const coarse = withRear({ ...COIL, 'preload-per-turn': '2 mm' });
    expect(curesRear(coarse, 'rear.spring+1mm')).toBeCloseTo(turned / 2, 9);
  });

  it('of another coil, which no rule measures, is a whole one', () => {
    expect(curesRear(withRear(COIL), 'rear.spring+5N/mm')).toBeGreaterThan(0.4);
  });
});
