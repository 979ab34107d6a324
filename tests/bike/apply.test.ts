import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChange, applyChanges, type AppliedChange } from '../../src/bike/apply.ts';
import { parseChange, wayBack, type Change } from '../../src/bike/change.ts';
import { changeable } from '../../src/bike/settings.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { writeSheet } from '../../src/bike/form/write.ts';
import { anySheet } from './any-sheet.ts';
import { exampleSheet, withValue } from './example.ts';

const one = (text: string): Change => parseChange(text).changes[0]!;
const apply = (sheet: BikeSheet, text: string) => applyChange(sheet, one(text));
function done(sheet: BikeSheet, text: string): AppliedChange {
  const result = apply(sheet, text);
  if ('message' in result) throw new Error(result.message);
  return result;
}
function refused(sheet: BikeSheet, text: string): string {
  const result = apply(sheet, text);
  return 'message' in result ? `${result.message} ${result.remedy}` : 'done';
}

const all = exampleSheet('all-knobs');
const coil = exampleSheet('coil');
const few = exampleSheet('few-knobs');

describe('a change that can be made', () => {
  it.each([
    [all, 'front.rebound.low+2', { from: 8, to: 10, unit: 'clicks', min: 0, max: 16, grain: 1 }],
    [all, 'front.rebound.low-8', { from: 8, to: 0, unit: 'clicks', min: 0, max: 16, grain: 1 }],
    [all, 'front.rebound.low+8', { from: 8, to: 16, unit: 'clicks', min: 0, max: 16, grain: 1 }],
    [all, 'front.spring+36psi', { from: 84, to: 120, unit: 'psi', min: 55, max: 120, grain: 0.5 }],
    [few, 'front.spring-0.3bar', { from: 4.9, to: 4.6, unit: 'bar', min: 3, max: 9, grain: 0.05 }],
    [
      few,
      'front.spring+5psi',
      { from: 71.0685, to: 76.0685, unit: 'psi', min: 43.5113, max: 130.534, grain: 0.5 },
    ],
    [
      coil,
      'rear.spring+50lb/in',
      { from: 375, to: 425, unit: 'lb/in', min: 11.4203, max: 1713.0441, grain: 5 },
    ],
    [coil, 'rear.spring+2mm', { from: 1, to: 3, unit: 'mm', min: 0, max: 3, grain: 0.5 }],
    [coil, 'rear.spring+0.5turns', { from: 1, to: 1.5, unit: 'turns', min: 0, max: 3, grain: 0.25 }],
    [all, 'front.ramp-up+3', { from: 2, to: 5, unit: 'spacers', min: 0, max: 5, grain: 1 }],
    [all, 'front.tyre-2psi', { from: 23, to: 21, unit: 'psi', min: 4.3511, max: 87.0226, grain: 0.5 }],
    [all, 'bars-15mm', { from: 15, to: 0, unit: 'mm', min: 0, max: 100, grain: 0.5 }],
  ] as const)('%#: %s', (sheet, text, { from, to, unit, min, max, grain }) => {
    expect(done(sheet, text).step).toMatchObject({
      setting: text.split(/[+-]\d/)[0],
      from: expect.closeTo(from, 3),
      to: expect.closeTo(to, 3),
      min: expect.closeTo(min, 3),
      max: expect.closeTo(max, 3),
      unit,
      grain,
    });
  });

  it('sets only what it names', () => {
    const { sheet } = done(all, 'front.rebound.low+2');
    const { 'rebound.low': knob, ...others } = sheet.ends.front.adjusters;
    expect(knob).toEqual({ range: 16, now: 10, maker: 8 });
    const { 'rebound.low': _, ...before } = all.ends.front.adjusters;
    expect(others).toEqual(before);
    expect({ ...sheet.ends.front, adjusters: null }).toEqual({ ...all.ends.front, adjusters: null });
    expect({ ...sheet, ends: null }).toEqual({ ...all, ends: null });
    expect(sheet.ends.rear).toBe(all.ends.rear);
  });

  it('leaves the sheet it came from alone', () => {
    const before = structuredClone(all);
    done(all, 'front.spring+5psi');
    expect(all).toEqual(before);
  });

  it.each([
    ['rear.spring+5psi', ['sag.measured', 'travel-used']],
    ['rear.compression.high-1', ['travel-used']],
    ['rear.ramp-up+1', ['travel-used']],
    ['rear.rebound.low+1', []],
    ['rear.tyre+1psi', []],
  ])('%s takes off what was measured with the setting before: %j', (text, stale) => {
    const { sheet, step } = done(all, text);
    expect(step.stale).toEqual(stale);
    expect(sheet.ends.rear.sagMeasured).toBe(stale.includes('sag.measured') ? undefined : 0.3);
    expect(sheet.ends.rear.travelUsed).toBe(stale.includes('travel-used') ? undefined : 0.96);
    expect(sheet.ends.front).toBe(all.ends.front);
  });

  it('does not name a reading the sheet never had', () => {
    expect(done(coil, 'rear.spring+1mm').step.stale).toEqual(['sag.measured']);
  });
});

describe('a change that cannot be made', () => {
  it.each([
    [
      all,
      'front.rebound.low+9',
      'front.rebound.low is at 8. 17 clicks is beyond its stop (fully open): 16. At most front.rebound.low+8.',
    ],
    [
      few,
      'rear.rebound.low-1',
      'rear.rebound.low is at 0. -1 clicks is beyond its stop (fully closed): 0. It goes no further that way: choose another adjustment.',
    ],
    [
      few,
      'rear.rebound.high+1',
      'The rear has one rebound knob, which acts on slow and on fast movements. Turn that one: rear.rebound.low.',
    ],
    [
      all,
      'front.spring+37psi',
      "front.spring is at 84. 121 psi is beyond the manufacturer's maximum: 120. At most front.spring+36psi.",
    ],
    [
      all,
      'front.spring-30psi',
      "front.spring is at 84. 54 psi is beyond the manufacturer's minimum: 55. At most front.spring-29psi.",
    ],
    [
      few,
      'front.spring+4.2bar',
      "front.spring is at 4.9. 9.1 bar is beyond the manufacturer's maximum: 9. At most front.spring+4.1bar.",
    ],
    [
      all,
      'front.spring+1mm',
      'The front has an air spring; it has no preload to set. Change its pressure: front.spring+5psi.',
    ],
    [
      all,
      'front.spring+5N/mm',
      'The front has an air spring; it has no rate to set. Change its pressure: front.spring+5psi.',
    ],
    [
      coil,
      'rear.spring+5psi',
      'The rear has a coil spring; it has no pressure. Change its preload (rear.spring+1mm) or fit another coil (rear.spring+5N/mm).',
    ],
    [
      coil,
      'rear.spring+3mm',
      "rear.spring is at 1. 4 mm is beyond the manufacturer's maximum preload: 3. At most rear.spring+2mm.",
    ],
    [
      coil,
      'rear.spring-2turns',
      'rear.spring is at 1. -1 turns is beyond no preload at all, and the coil rattles: 0. At most rear.spring-1turns.',
    ],
    [
      coil,
      'rear.ramp-up+1',
      'The rear has a coil spring; there are no volume spacers in it. Choose another adjustment.',
    ],
    [
      few,
      'rear.ramp-up-1',
      'rear.ramp-up is at 0. -1 spacers is beyond none at all: 0. It goes no further that way: choose another adjustment.',
    ],
    [
      few,
      'bars+5mm',
      'spacers under the stem: current setting not recorded, so there is no way back. Measure the spacers under the stem.',
    ],
  ])('%#: %s', (sheet, text, message) => {
    expect(refused(sheet, text)).toBe(message);
  });

  it('is one from a place nobody counted', () => {
    const { sheet } = readSheet(withValue('front.rebound.low', { clicks: 16 }));
    expect(refused(sheet!, 'front.rebound.low+2')).toBe(
      'front low-speed rebound: current setting not recorded, so there is no way back. Turn it gently clockwise, as you face it, to fully closed. Count the clicks, and turn it back.',
    );
  });

  it('is one in turns when nobody knows what a turn does', () => {
    const { sheet } = readSheet(withValue('rear.spring', { kind: 'coil', rate: 80, preload: 1 }));
    expect(refused(sheet!, 'rear.spring+1turns')).toBe(
      'The sheet does not say how far one turn moves the rear collar. Measure it and write preload-per-turn: on the sheet, or say it in mm: rear.spring+1mm.',
    );
  });

  it('is one that comes back from outside the limits, but not far enough', () => {
    const { sheet } = readSheet(withValue('front.spring.pressure', 130));
    expect(refused(sheet!, 'front.spring-5psi')).toBe(
      "front.spring is at 130. 125 psi is beyond the manufacturer's maximum: 120. At least front.spring-10psi.",
    );
    expect(refused(sheet!, 'front.spring-10psi')).toBe('done');
  });

  it.each<[Change, string]>([
    [{ setting: 'front.condition', by: 1, unit: 'clicks' }, 'front.condition is not a valid change.'],
    [{ setting: 'front.tyre', by: 1, unit: 'mm' }, 'front.tyre is not a valid change in mm.'],
    [
      { setting: 'front.rebound.low', by: Number.NaN, unit: 'clicks' },
      'front.rebound.low+NaN cannot be set.',
    ],
    [{ setting: 'front.rebound.low', by: 0.5, unit: 'clicks' }, 'front.rebound.low+0.5 cannot be set.'],
    [{ setting: 'front.spring', by: 0, unit: 'psi' }, 'front.spring+0psi cannot be set.'],
  ])('%#: a change no notation gives', (change, message) => {
    expect(applyChange(all, change)).toMatchObject({ message });
  });
});

describe('several changes', () => {
  it('are made one after the other', () => {
    const { sheet, steps } = applyChanges(all, parseChange('front.rebound.low+2,rear.spring+5psi').changes);
    expect(steps.map((s) => [s.setting, s.from, s.to])).toEqual([
      ['front.rebound.low', 8, 10],
      ['rear.spring', 178, 183],
    ]);
    expect(sheet!.ends.front.adjusters['rebound.low']!.now).toBe(10);
    expect(sheet!.ends.rear.sagMeasured).toBeUndefined();
  });

  it('are made all or none, with every reason', () => {
    const { sheet, steps, problems } = applyChanges(
      few,
      parseChange('rear.rebound.high+1,front.rebound.low+2,bars+5mm').changes,
    );
    expect(sheet).toBeUndefined();
    expect(steps).toEqual([]);
    expect(problems.map((p) => p.part)).toEqual(['rear.rebound.high+1', 'bars+5mm']);
  });
});

describe('whatever the bike and the change', () => {
  const anyChange: fc.Arbitrary<Change> = fc.constantFrom(...changeable()).chain(([setting, units]) =>
    fc.record({
      setting: fc.constant(setting),
      unit: fc.constantFrom(...units),
      by: fc.oneof(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -500, max: 500 })),
    }),
  );

  /** Five changes a bike: to make up the bike costs most. */
  const changes = fc.array(anyChange, { minLength: 5, maxLength: 5 });

  it('a change made ends between the stops, and the sheet after it can be written and read', () => {
    let made = 0;
    fc.assert(
      fc.property(anySheet, changes, (sheet, several) => {
        for (const change of several) {
          const result = applyChange(sheet, change);
          if ('message' in result) continue;
          made++;
          const { from, to, min, max } = result.step;
          expect(to).toBeGreaterThanOrEqual(min);
          expect(to).toBeLessThanOrEqual(max);
          expect(to - from).toBeCloseTo(change.by, 4);
          const { problems } = readSheet(writeSheet(result.sheet));
          expect(problems.filter((p) => p.severity === 'error')).toEqual([]);
        }
      }),
      { numRuns: 200 },
    );
    expect(made).toBeGreaterThan(50);
  });

  it('the way back leads to where it stood', () => {
    let gone = 0;
    fc.assert(
      fc.property(anySheet, changes, (sheet, several) => {
        for (const change of several) {
          const there = applyChange(sheet, change);
          if ('message' in there) continue;
          const back = applyChange(there.sheet, wayBack([change])[0]!);
          // What stood outside the maker's limits cannot be put back there.
          const { from, min, max } = there.step;
          if (from < min || from > max) continue;
          gone++;
          expect(back).toMatchObject({ step: { to: expect.closeTo(from, 4) } });
        }
      }),
      { numRuns: 200 },
    );
    expect(gone).toBeGreaterThan(50);
  });
});
