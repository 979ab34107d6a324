import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseChange, printChange, wayBack, type Change } from '../../src/bike/change.ts';
import { changeable } from '../../src/bike/settings.ts';
import { exampleSheet } from './example.ts';

/** Any change the notation can say, at most one of each thing. */
const anyChanges: fc.Arbitrary<Change[]> = fc.uniqueArray(
  fc
    .constantFrom(...changeable())
    .chain(([setting, units]) =>
      fc.record({
        setting: fc.constant(setting),
        unit: fc.constantFrom(...units),
        by: fc.integer({ min: 1, max: 99_999 }),
        sign: fc.constantFrom(1, -1),
        digits: fc.integer({ min: 0, max: 3 }),
      }),
    )
    .map(({ setting, unit, by, sign, digits }) => ({
      setting,
      unit,
      by: (sign * by) / (unit === 'clicks' || unit === 'spacers' ? 1 : 10 ** digits),
    })),
  { selector: (change) => change.setting, minLength: 1, maxLength: 4 },
);

describe('reading the notation', () => {
  it.each<[string, Change]>([
    ['front.rebound.low+2', { setting: 'front.rebound.low', by: 2, unit: 'clicks' }],
    ['rear.compression.high-1 click', { setting: 'rear.compression.high', by: -1, unit: 'clicks' }],
    [' Front.Rebound.Low + 2 Clicks ', { setting: 'front.rebound.low', by: 2, unit: 'clicks' }],
    ['front.rebound.low−2', { setting: 'front.rebound.low', by: -2, unit: 'clicks' }],
    ['rear.spring+5psi', { setting: 'rear.spring', by: 5, unit: 'psi' }],
    ['front.spring-0.3bar', { setting: 'front.spring', by: -0.3, unit: 'bar' }],
    ['front.spring-0,3 bar', { setting: 'front.spring', by: -0.3, unit: 'bar' }],
    ['rear.spring+20KPA', { setting: 'rear.spring', by: 20, unit: 'kPa' }],
    ['rear.spring+25 lbs/in', { setting: 'rear.spring', by: 25, unit: 'lb/in' }],
    ['rear.spring-5N/mm', { setting: 'rear.spring', by: -5, unit: 'N/mm' }],
    ['rear.spring+1 turn', { setting: 'rear.spring', by: 1, unit: 'turns' }],
    ['rear.spring+1mm', { setting: 'rear.spring', by: 1, unit: 'mm' }],
    ['rear.ramp-up+1 spacer', { setting: 'rear.ramp-up', by: 1, unit: 'spacers' }],
    ['rear.ramp-up-1', { setting: 'rear.ramp-up', by: -1, unit: 'spacers' }],
    ['front.tyre-2psi', { setting: 'front.tyre', by: -2, unit: 'psi' }],
    ['bars-5mm', { setting: 'bars', by: -5, unit: 'mm' }],
  ])('%s', (text, change) => {
    expect(parseChange(text)).toEqual({ changes: [change], problems: [] });
  });

  it('reads several, in order', () => {
    const { changes } = parseChange('front.rebound.low+2, rear.spring-0,5bar,bars+5mm');
    expect(changes.map((c) => [c.setting, c.by])).toEqual([
      ['front.rebound.low', 2],
      ['rear.spring', -0.5],
      ['bars', 5],
    ]);
  });

  it('takes a coil and its preload as two things', () => {
    expect(parseChange('rear.spring+25lb/in,rear.spring-1mm').problems).toEqual([]);
  });

  it.each([
    [
      '',
      'No change given. Write the setting, + or -, and how much: front.rebound.low+2 or rear.spring-5psi.',
    ],
    [
      'front.rebound.low',
      'front.rebound.low is not a change. Write the setting, + or -, and how much: front.rebound.low+2 or rear.spring-5psi.',
    ],
    [
      'front.rebound.low+NaN',
      'front.rebound.low+NaN is not a change. Write the setting, + or -, and how much: front.rebound.low+2 or rear.spring-5psi.',
    ],
    [
      'front.rebound.low+1e9',
      'front.rebound.low+1e9 is not a change. Write the setting, + or -, and how much: front.rebound.low+2 or rear.spring-5psi.',
    ],
    ['front.rebond.low+2', 'There is no setting front.rebond.low to change. Did you mean front.rebound.low?'],
    [
      'derailleur+2',
      'There is no setting derailleur to change. Settings: front.spring, front.ramp-up, front.rebound.low, front.rebound.high, front.compression.low, front.compression.high, front.tyre, rear.spring, rear.ramp-up, rear.rebound.low, rear.rebound.high, rear.compression.low, rear.compression.high, rear.tyre, bars.',
    ],
    [
      'front.spring+5',
      'front.spring+5 needs a unit. Use psi, bar, kPa, N/mm, lb/in, mm, in, turns: front.spring+5psi.',
    ],
    ['front.tyre+5mm', 'front.tyre is not changed in mm. Use psi, bar, kPa: front.tyre+5psi.'],
    ['front.rebound.low+0', 'front.rebound.low+0 changes nothing. Say how much.'],
    ['front.rebound.low+1.5', 'front.rebound.low+1.5: only whole clicks can be set. Write 1 or 2.'],
    ['rear.ramp-up+0.5', 'rear.ramp-up+0.5: only whole spacers can be set. Write 0 or 1.'],
    [
      'bars\u001B[2J+5mm',
      'bars�[2J+5mm is not a change. Write the setting, + or -, and how much: front.rebound.low+2 or rear.spring-5psi.',
    ],
    [
      'front.spring+5psi,front.spring-0.1bar',
      'front.spring-0.1bar changes what front.spring+5psi already changes. Write it once, with the total.',
    ],
  ])('refuses %j', (text, problem) => {
    const { changes, problems } = parseChange(text);
    expect(changes).toEqual([]);
    expect(problems.map((p) => `${p.message} ${p.remedy}`)).toEqual([problem]);
  });

  it('tells every wrong part at once, and gives none of the change', () => {
    const { changes, problems } = parseChange('front.rebond.low+2,rear.spring+5,bars-5mm,x');
    expect(changes).toEqual([]);
    expect(problems.map((p) => p.part)).toEqual(['front.rebond.low+2', 'rear.spring+5', 'x']);
  });

  it('answers any text without throwing, with changes or with problems but never both or neither', () => {
    const bits = fc.constantFrom(
      'front',
      '.',
      'rebound.low',
      '+',
      '-',
      '2',
      ',',
      ' ',
      'psi',
      'é',
      '\u0000',
      'bars',
      '5mm',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(bits).map((b) => b.join('')),
        ),
        (text) => {
          const { changes, problems } = parseChange(text);
          expect(changes.length > 0).toBe(problems.length === 0);
        },
      ),
    );
  });
});

describe('printing the notation', () => {
  it('leaves out the units that need not be said', () => {
    expect(
      printChange(parseChange('front.rebound.low +2 clicks, rear.ramp-up+1 spacer, bars - 5 mm').changes),
    ).toBe('front.rebound.low+2,rear.ramp-up+1,bars-5mm');
  });

  it('reads back as the same changes', () => {
    fc.assert(
      fc.property(anyChanges, (changes) => {
        expect(parseChange(printChange(changes))).toEqual({ changes, problems: [] });
      }),
    );
  });
});

describe('the way back', () => {
  it('undoes the last change first', () => {
    expect(printChange(wayBack(parseChange('front.rebound.low+2,rear.spring-5psi').changes))).toBe(
      'rear.spring+5psi,front.rebound.low-2',
    );
  });

  it('of the way back is the change itself', () => {
    fc.assert(
      fc.property(anyChanges, (changes) => {
        expect(wayBack(wayBack(changes))).toEqual(changes);
      }),
    );
  });
});

describe('on a bike whose sheet is known', () => {
  it('takes the one knob of a side by the name of the side', () => {
    const few = exampleSheet('few-knobs');
    for (const [text, setting] of [
      ['rear.rebound+2', 'rear.rebound.low'],
      ['Front.Compression + 2', 'front.compression.low'],
      ['rear.rebound.low+2', 'rear.rebound.low'],
    ] as const)
      expect(parseChange(text, [], few)).toEqual({
        changes: [{ setting, by: 2, unit: 'clicks' }],
        problems: [],
      });
    expect(parseChange('rear.rebound+2,rear.rebound.low+1', [], few).problems[0]!.message).toContain(
      'changes what rear.rebound+2 already changes',
    );
  });
  it.each([
    ['all-knobs', 'rear.rebound+2', 'two knobs. Write rear.rebound.low or rear.rebound.high.'],
    ['few-knobs', 'rear.compression-1', 'the sheet says there is no such knob. Choose a knob it has'],
  ] as const)('asks which of two, and says that there is none: %s %s', (bike, text, said) => {
    const { changes, problems } = parseChange(text, [], exampleSheet(bike));
    expect(changes).toEqual([]);
    expect(`${problems[0]!.message} ${problems[0]!.remedy}`).toContain(said);
  });
  it('asks of a coil for no pressure, and names the spring by its preload', () => {
    const remedy = (text: string): string => {
      const { problems } = parseChange(text, [], exampleSheet('coil'));
      return problems[0]!.remedy;
    };
    expect(remedy('rear.spring+1')).toBe('Use N/mm, lb/in, mm, in, turns: rear.spring+1N/mm.');
    expect(remedy('front.spring+1')).toBe('Use psi, bar, kPa: front.spring+1psi.');
    expect(remedy('rear.preload+1mm')).toBe('Did you mean rear.spring?');
  });
  it('knows no side without it', () => {
    expect(parseChange('rear.rebound+2').problems[0]!.message).toContain('There is no setting');
  });
});
