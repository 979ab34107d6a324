import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { possible, type Step } from '../../../src/advice/feasibility.ts';
import { stepByTheSheet } from '../../../src/advice/step/sheet-step.ts';
import { readSheet } from '../../../src/bike/form/read.ts';
import type { BikeSheet } from '../../../src/bike/sheet.ts';
import { withValue } from '../../bike/example.ts';
import { baseRules } from '../../support/base-rules.ts';

const { rules } = baseRules();
const BY = rules.numbers.advice['by-the-sheet']!;
const of = (id: string) => rules.adjustments.find((a) => a.id === id)!;
const sheetWith = (path: string, value: unknown): BikeSheet => readSheet(withValue(path, value)).sheet!;
const knob = (clicks: number, now: number, maker?: number): BikeSheet =>
  sheetWith('rear.rebound', { low: { clicks, now, ...(maker === undefined ? {} : { maker }) } });
const step = (id: string, sheet: BikeSheet, clicks: number): Step | undefined => {
  const can = possible(of(id), sheet, clicks, undefined, undefined, rules.numbers.advice);
  return can.can ? can.step : undefined;
};

it('comes to a stop by small steps, however many clicks are felt as one', () => {
  // Half of what is left, and no fewer than the rule's two. Common practice, no source.
  expect(step('rear.rebound.low.close', knob(14, 4), 4)).toMatchObject({ by: -2, from: 4, to: 2 });
  expect(step('rear.rebound.low.close', knob(14, 6), 4)).toMatchObject({ by: -3 });
  expect(step('rear.rebound.low.open', knob(14, 10), 4)).toMatchObject({ by: 2 });
  expect(step('rear.rebound.low.close', knob(14, 8), 4)).toMatchObject({ by: -4 });
});

describe('a knob that stands far from the maker’s figure', () => {
  // Common practice, no source: about half the way, never across, at most a quarter of the range.
  it.each([
    [12, 11, 5, 1, -3],
    [14, 2, 6, 1, 2],
    // As much as can be felt, but not across.
    [14, 2, 6, 3, 3],
    [14, 2, 5, 4, 3],
    [15, 14, 7, 1, -3],
    [20, 16, 6, 2, -5],
  ])('%i clicks, at %i, maker %i: %i of the rule become %i', (clicks, now, maker, felt, by) => {
    const id = `rear.rebound.low.${by < 0 ? 'close' : 'open'}`;
    expect(step(id, knob(clicks, now, maker), felt)).toMatchObject({ by, from: now, to: now + by });
  });

  it('goes the rule’s step where it is near, the other way, or not known', () => {
    expect(step('rear.rebound.low.close', knob(12, 7, 5), 1)).toMatchObject({ by: -1 });
    expect(step('rear.rebound.low.open', knob(12, 9, 5), 2)).toMatchObject({ by: 2 });
    expect(step('rear.rebound.low.close', knob(12, 8), 1)).toMatchObject({ by: -1 });
  });

  // Most makers' tables start near the middle: common practice, no source.
  it.each([
    [12, 12, 1, -3],
    [13, 12, 2, -3],
    [10, 9, 1, -2],
    [12, 1, 1, 3],
    [12, 9, 1, -1],
    [12, 1, 1, -1],
  ])('without that figure, %i clicks, at %i: %i of the rule become %i', (clicks, now, felt, by) => {
    expect(step(`rear.rebound.low.${by < 0 ? 'close' : 'open'}`, knob(clicks, now), felt)).toMatchObject({
      by,
    });
  });

  it('is never turned across it, nor by more than a quarter of its range', () => {
    const any = fc.integer({ min: 0, max: 24 });
    fc.assert(
      fc.property(any, any, fc.constantFrom(-1, 1), (now, maker, way) => {
        const rule: Step = { setting: 'rear.rebound.low', by: way, unit: 'clicks' };
        const { by } = stepByTheSheet(rule, { kind: 'click' }, knob(24, now, maker), BY);
        const off = (maker - now) * way;
        expect(by * way).toBeGreaterThan(0);
        expect(by * way).toBeLessThanOrEqual(off <= BY.beyond ? 1 : Math.min(off, 6));
      }),
    );
  });
});

describe('a tyre with a target', () => {
  const tyre = (now: number, wanted: number, rear = 1.8): BikeSheet => {
    const data = withValue('front.tyre', { now: `${now} bar`, wanted: `${wanted} bar` }) as {
      units: object;
      front: object;
      rear: object;
    };
    data.front = { ...data.front, spring: { kind: 'air', pressure: 5.5 } };
    data.units = { ...data.units, pressure: 'bar' };
    data.rear = {
      ...data.rear,
      spring: { kind: 'air', pressure: 12.2 },
      tyre: { now: `${rear} bar`, wanted: '1.8 bar' },
    };
    return readSheet(data).sheet!;
  };

  it.each([
    [2.5, 1.5, -1],
    [1.6, 1.5, -0.1],
  ])('goes from %f to %f in one step, and not past it', (now, wanted, by) => {
    expect(step('front.tyre.softer', tyre(now, wanted), 1)).toMatchObject({ by, to: wanted });
  });

  it('takes the other with it, where that is off the same way', () => {
    const note = (rear: number): string | undefined => {
      const can = possible(of('front.tyre.softer'), tyre(2.5, 1.5, rear), 1, undefined, undefined, {
        ...rules.numbers.advice,
        reasons: rules.reasons,
      });
      return can.can ? can.note : undefined;
    };
    expect(note(2.4)).toBe(
      'the rear tyre is off the same way; set it to 1.8 bar at the same time (now 2.4 bar)',
    );
    expect(note(1.8)).toBeUndefined();
    expect(note(1.4)).toBeUndefined();
  });
});
