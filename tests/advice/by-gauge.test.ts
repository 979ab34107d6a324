/** Which steps a gauge asks for: on the sheet, or by an answer. */
import { describe, expect, it } from 'vitest';
import { isByGauge } from '../../src/advice/by-gauge.ts';
import type { BikeSheet, EndSheet } from '../../src/bike/sheet.ts';
import { hear } from '../../src/casework/evidence.ts';
import { exampleSheet } from '../bike/example.ts';
import { answersOf, model, rules } from '../support/told.ts';

const EXAMPLE = exampleSheet('all-knobs');
/** A bike with this in front and nothing read at the rear. */
const sheetWith = (front: Partial<EndSheet>): BikeSheet => {
  const { spring, travel } = EXAMPLE.ends.front;
  const { sagMeasured: _, tyre: __, ...rear } = EXAMPLE.ends.rear;
  return {
    ...EXAMPLE,
    ends: { front: { travel, spring, adjusters: {}, ...front }, rear } as BikeSheet['ends'],
  };
};
const asks = (id: string, sheet: BikeSheet, said: Readonly<Record<string, string>> = {}): boolean => {
  const { known } = hear(model, answersOf(said), () => undefined);
  return isByGauge(
    model,
    sheet,
    rules.adjustments.find((a) => a.id === id)!,
    known,
  );
};
const BARE = sheetWith({});

describe('a gauge asks for a step', () => {
  it.each([
    // measured, wanted, asked for
    [0.3, 0.2, ['front.spring.firmer']],
    [0.12, 0.2, ['front.spring.softer']],
    // Two points are what a ring is read by.
    [0.22, 0.2, []],
  ])('where sag reads %d and should be %d', (sagMeasured, sagWanted, asked) => {
    const sheet = sheetWith({ sagMeasured, sagWanted });
    const steps = ['front.spring.firmer', 'front.spring.softer', 'front.rebound.low.open'];
    expect(steps.filter((id) => asks(id, sheet))).toEqual(asked);
  });
  it('where a tyre is off its target', () => {
    const sheet = sheetWith({ tyre: { now: 207e3, wanted: 159e3 } });
    const steps = rules.adjustments.filter(({ change }) => change?.setting === 'front.tyre');
    expect(steps.filter(({ id }) => asks(id, sheet)).map(({ change }) => Math.sign(change!.by))).toEqual([
      -1,
    ]);
  });
  it('where an answer says what it read, and for no click', () => {
    const said = { 'sag@front': 'more', 'knob-place@front': 'closed' };
    expect(asks('front.spring.firmer', BARE, said)).toBe(true);
    expect(asks('front.spring.softer', BARE, said)).toBe(false);
    expect(asks('front.rebound.low.open', BARE, said)).toBe(false);
    expect(asks('front.spring.firmer', BARE)).toBe(false);
  });
  it('not by clicks far from the maker’s figure', () => {
    const sheet = exampleSheet('all-knobs');
    expect(asks('front.rebound.high.open', sheet)).toBe(false);
  });
});
