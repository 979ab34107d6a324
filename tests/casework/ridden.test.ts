import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { riddenEffect } from '../../src/casework/trial-effect.ts';
import { model } from '../support/front-rules.ts';

const bench = prepareBike(model);
const LASTS = model.rules.numbers.results['one-step'];
const PSI_A_BAR = 14.503773773; // 1e5 Pa over 6894.757293168 Pa

const cured = (change: string, cause: string): number | undefined =>
  riddenEffect(model, bench, change)?.cures[model.causeIndex.get(cause)!];
const brought = (change: string, cause: string): number | undefined =>
  riddenEffect(model, bench, change)?.brings[model.causeIndex.get(cause)!];

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
    expect(riddenEffect(model, bench, 'front.rebound.low.open')?.lasts).toBe(LASTS);
    expect(riddenEffect(model, bench, 'front.rebound.low+2')?.lasts).toBe(LASTS);
    expect(riddenEffect(model, bench, 'front.seals.service')?.lasts).toBeUndefined();
  });

  it.each(['front.spring+5psi', 'rear.rebound.low+2', 'front.rebound.low+2,front.tyre+1psi', 'nonsense'])(
    'is not placed where no adjustment of the rules does that: %s',
    (change) => {
      expect(riddenEffect(model, bench, change)).toBeUndefined();
    },
  );
});
