import { describe, expect, it } from 'vitest';
import { possible as possibleOn } from '../../src/advice/feasibility.ts';
import type { BikeSheet, End } from '../../src/bike/sheet.ts';
import type { Adjustment } from '../../src/rulebase/compiled-adjustment.ts';
import { exampleSheet } from '../bike/example.ts';
import { baseRules } from '../support/base-rules.ts';
import { adjustmentOf, model } from '../support/front-rules.ts';

/** What the built-in pack says of a step. */
const { reasons } = baseRules().rules;
type Asked = Parameters<typeof possibleOn>;
const possible = (
  a: Asked[0],
  sheet?: Asked[1],
  clicks?: Asked[2],
  said?: Asked[3],
  spring?: Asked[4],
  far = {},
) => possibleOn(a, sheet, clicks, said, spring, { reasons, ...far });

const open = model.rules.adjustments[adjustmentOf('front.rebound.low.open')]!;
const close = model.rules.adjustments[adjustmentOf('front.rebound.low.close')]!;
const softer = model.rules.adjustments[adjustmentOf('front.spring.softer')]!;
const service = model.rules.adjustments[adjustmentOf('front.seals.service')]!;
const sheet = exampleSheet('all-knobs');
const RANGE = 18;

function withLow(now: number | undefined): BikeSheet {
  const { adjusters } = sheet.ends.front;
  const low = { range: RANGE, ...(now === undefined ? {} : { now }) };
  return {
    ...sheet,
    ends: { ...sheet.ends, front: { ...sheet.ends.front, adjusters: { ...adjusters, 'rebound.low': low } } },
  };
}
const PSI = 6894.757293168; // Pa, exactly 4.4482216152605 N / 0.0254² m²

function withAir(
  pressure: number,
  more: { pressureMin?: number; pressureMax?: number } = {},
  pressureUnit = sheet.units.pressure,
): BikeSheet {
  const spring = { kind: 'air', pressure, ...more } as const;
  return {
    ...sheet,
    units: { ...sheet.units, pressure: pressureUnit },
    ends: { ...sheet.ends, front: { ...sheet.ends.front, spring } },
  };
}

describe('a step of clicks', () => {
  it('is the one of the rule on no bike in particular, of so many clicks as can be felt', () => {
    expect(possible(open, undefined)).toEqual({
      can: true,
      step: open.change,
      // Nobody said that it has one.
      note: 'Check first that the front low-speed rebound has a knob. If there is only one rebound knob, turn that one',
      look: true,
    });
    expect(possible(close, undefined, 3)).toMatchObject({ can: true, step: { by: -3 } });
  });

  it('says where it begins and ends', () => {
    expect(possible(open, withLow(8))).toEqual({
      can: true,
      step: { setting: 'front.rebound.low', by: 2, unit: 'clicks', from: 8, to: 10 },
    });
  });

  it('is as long as there is room, and says so', () => {
    expect(possible(open, withLow(RANGE - 1))).toEqual({
      can: true,
      step: { setting: 'front.rebound.low', by: 1, unit: 'clicks', from: RANGE - 1, to: RANGE },
      note: 'only this much range is left before its stop (fully open)',
    });
  });

  it.each([
    [open, RANGE, 'it is at its stop (fully open)'],
    [close, 0, 'it is at its stop (fully closed)'],
  ])('cannot be taken at the stop', (adjustment, now, why) => {
    expect(possible(adjustment, withLow(now))).toEqual({ can: false, why, unfit: false });
  });

  it('can be taken from where nobody counted, with the way to find out', () => {
    expect(possible(open, withLow(undefined))).toEqual({
      can: true,
      step: open.change,
      note: expect.stringMatching(/count the clicks/i) as string,
    });
  });
});

describe('a step of pressure', () => {
  it('is said in the unit of the sheet, to what its gauge shows', () => {
    // 5 psi are 0.345 bar, and a gauge shows twentieths of a bar.
    expect(possible(softer, withAir(6e5, {}, 'bar'))).toEqual({
      can: true,
      step: { setting: 'front.spring', by: -0.35, unit: 'bar', from: 6, to: 5.65 },
    });
    expect(possible(softer, withAir(80 * PSI, {}, 'psi'))).toMatchObject({
      step: { by: -5, unit: 'psi', from: 80, to: 75 },
    });
  });

  it("ends at the maker's limit, and is refused once less than the gauge shows is left", () => {
    const limit = { pressureMin: 78 * PSI };
    expect(possible(softer, withAir(80 * PSI, limit, 'psi'))).toMatchObject({
      can: true,
      step: { by: -2, to: 78 },
      note: expect.stringContaining("the manufacturer's minimum") as string,
    });
    expect(possible(softer, withAir(78.5 * PSI, limit, 'psi'))).toMatchObject({ can: true });
    expect(possible(softer, withAir(78.4 * PSI, limit, 'psi'))).toEqual({
      can: false,
      why: "it is at the manufacturer's minimum",
      unfit: false,
    });
    // Outside already: further out is no step, whatever room the numbers seem to leave.
    expect(possible(softer, withAir(70 * PSI, limit, 'psi'))).toMatchObject({ can: false });
  });
});

describe('what an adjustment needs', () => {
  it('is denied by the sheet in words, and then it is unfit for the bike', () => {
    const coil: BikeSheet = {
      ...sheet,
      ends: { ...sheet.ends, front: { ...sheet.ends.front, spring: { kind: 'coil' } } },
    };
    expect(possible(softer, coil)).toEqual({
      can: false,
      why: 'it needs the front spring to be air, and on this bike it is coil',
      unfit: true,
    });
  });

  it('is looked up on the sheet, end by end', () => {
    // Air in front and a coil in the rear.
    const coil = exampleSheet('coil');
    const needy = (end: End, path: string): Adjustment => ({ ...service, end, needs: { [path]: ['air'] } });
    expect(possible(needy('front', 'front.spring'), coil).can).toBe(true);
    expect(possible(needy('rear', 'rear.spring'), coil).can).toBe(false);
  });

  it('is nothing for a repair, which is always possible', () => {
    expect(possible(service, sheet)).toEqual({ can: true });
  });
});

describe('a spring whose sag was measured', () => {
  const air = { ...softer, change: { setting: 'front.spring', by: -4, unit: 'psi', most: 20 } } as const;
  const of = (psi: number, now = 60, share = 0.2) =>
    possible(
      air,
      withAir(now * PSI),
      undefined,
      undefined,
      { by: psi * PSI },
      { 'air-at-once': share, reasons },
    );
  const AGAIN = 'no more than that in one go';

  it('is moved by the whole correction, to what a gauge shows, and no more than the rule lets it at once', () => {
    expect(of(-9.3)).toMatchObject({ can: true, step: { by: -9.5, from: 60, to: 50.5 } });
    expect(of(-1.2)).toMatchObject({ can: true, step: { by: -1 } });
    expect(of(-35, 140)).toMatchObject({ can: true, step: { by: -20 }, note: AGAIN });
    expect(of(-9.3)).not.toHaveProperty('note');
  });

  it('is moved by no more than the share of its pressure that the pack lets it at once', () => {
    expect(of(-35)).toMatchObject({ can: true, step: { by: -12, to: 48 }, note: AGAIN });
    expect(of(-35, 60, 0.1)).toMatchObject({ can: true, step: { by: -6, to: 54 }, note: AGAIN });
    // 12.6 psi are a fifth of 63; a gauge shows halves.
    expect(of(-35, 63)).toMatchObject({ can: true, step: { by: -12.5 }, note: AGAIN });
  });

  it('keeps to the step of the rule where the sag asks for the other way', () => {
    expect(of(6)).toMatchObject({ can: true, step: { by: -4 } });
  });

  const collar = (by: 1 | -1): Adjustment => ({
    ...softer,
    needs: {},
    change: { setting: 'rear.spring', by, unit: 'turns', most: 2, notBelow: 1 },
  });
  const coil = (preload: number): BikeSheet => ({
    ...sheet,
    ends: {
      ...sheet.ends,
      rear: { ...sheet.ends.rear, spring: { kind: 'coil', rate: 70_000, preload, preloadPerTurn: 0.001 } },
    },
  });
  const turned = (by: 1 | -1, preload: number, off: number) =>
    possible(collar(by), coil(preload), undefined, undefined, { by: off, rate: 60_000 }, { reasons });

  it('takes preload for a small error, and another rate for a large one', () => {
    expect(turned(1, 0.001, 0.0013)).toMatchObject({ can: true, step: { by: 1.25, from: 1, to: 2.25 } });
    expect(turned(1, 0.001, 0.005)).toEqual({
      can: false,
      why: 'sag is about 5 turns off; that needs a different spring rate, not preload',
      unfit: false,
    });
  });

  it('never takes the turn that keeps a coil from rattling', () => {
    expect(turned(-1, 0.001, -0.001)).toEqual({
      can: false,
      why: 'it is at the least it should have, 1 turn',
      unfit: false,
    });
    expect(turned(-1, 0.002, -0.0018)).toMatchObject({ can: true, step: { by: -1, from: 2, to: 1 } });
  });
});

describe('a step near the most that an air spring may hold', () => {
  const firmer: Adjustment = { ...softer, change: { ...softer.change!, by: 4 } };
  const spacer: Adjustment = {
    ...softer,
    kind: 'spacer',
    change: { setting: 'front.ramp-up', by: 1, unit: 'spacers' },
  };
  const noted = (adjustment: Adjustment, pressure: number): string | undefined => {
    const sheet = withAir(pressure * PSI, { pressureMax: 130 * PSI }, 'psi');
    const can = possible(adjustment, sheet, undefined, undefined, undefined, { 'near-most': 0.9, reasons });
    return can.can ? can.note : undefined;
  };
  it.each([
    ['more air', firmer],
    ['a spacer, for which it is filled again', spacer],
  ])('names it: %s', (_, adjustment) => {
    expect(noted(adjustment, 120)).toMatch(/never pump it above 130 psi/);
  });
  it('names it where the step ends near it', () => {
    expect(noted({ ...firmer, change: { ...firmer.change!, by: 20 } }, 110)).toMatch(
      /never pump it above 130 psi/,
    );
  });
  it('names it neither far below, nor where air is let out', () => {
    expect(noted(firmer, 90) ?? '').not.toMatch(/130/);
    expect(noted(softer, 128) ?? '').not.toMatch(/130/);
  });
});
