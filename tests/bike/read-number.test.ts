import { describe, expect, it } from 'vitest';
import { answerFor, bandTold, targetOf, type Gauge } from '../../src/bike/gauge/gauge.ts';
import {
  asWritten,
  readBand,
  readingsOf,
  readNumber,
  writeAim,
  writeAims,
  writeBand,
  writeLength,
  writeNumber,
  type Beside,
} from '../../src/bike/gauge/read-number.ts';
import { baseRules } from '../support/base-rules.ts';

const BAR = 1e5;
/** NIST SP 811 (2008), appendix B.8: 1 psi = 6.894757 kPa. */
const PSI = 6894.757;
const front: Beside = { end: 'front', like: ['18 %', '27/150 mm'] };
const rear: Beside = { end: 'rear', like: ['27 %', '16/60 mm'] };

describe('a number that is typed', () => {
  it.each([
    ['43 %', front, 0.43],
    ['43%', rear, 0.43],
    ['43', rear, 0.43],
    ['0.43', rear, 0.43],
    ['27,5 %', rear, 0.275],
    ['about 30 percent', rear, 0.3],
    ['26/60 mm', rear, 26 / 60],
    ['26 of 60', rear, 26 / 60],
    ['26 mm of 60 mm', rear, 26 / 60],
    ['2.6 cm of 60 mm', rear, 26 / 60],
    ['1/2.4"', rear, 1 / 2.4],
    ['26 mm', { end: 'rear', whole: 0.06 }, 26 / 60],
    ['30 mm', { end: 'front', whole: 0.16 }, 30 / 160],
    ['1 in', { end: 'front', whole: 0.1524 }, 1 / 6],
  ] as const)('%s is a share of the travel or the stroke', (text, beside, share) => {
    const read = readNumber(text, 'sag', beside);
    expect(read).toMatchObject({ ok: true, unit: '%' });
    expect(read.ok && read.value).toBeCloseTo(share, 9);
  });
  it.each([
    ['2.4 bar', 'tyre', undefined, 2.4 * BAR, 'bar'],
    ['2,4bar', 'tyre', undefined, 2.4 * BAR, 'bar'],
    ['35 psi', 'tyre', undefined, 35 * PSI, 'psi'],
    ['240 kPa', 'tyre', undefined, 2.4 * BAR, 'kPa'],
    // Only one of the units makes sense of these.
    ['2.4', 'tyre', undefined, 2.4 * BAR, 'bar'],
    ['2.4', 'tyre', 'psi', 2.4 * BAR, 'bar'],
    ['35', 'tyre', undefined, 35 * PSI, 'psi'],
    ['180', 'spring', undefined, 180 * PSI, 'psi'],
    // Of two that do, the sheet's.
    ['24', 'spring', 'bar', 24 * BAR, 'bar'],
    ['24', 'spring', 'psi', 24 * PSI, 'psi'],
  ] as const)('%s is a %s pressure', (text, reads, pressure, si, unit) => {
    const read = readNumber(text, reads, { end: 'front', pressure });
    expect(read).toMatchObject({ ok: true, unit });
    expect(read.ok && read.value / si).toBeCloseTo(1, 6);
  });
  it.each([
    ['much', 'sag', rear, /^much is not a sag\. Write it like 27 % or 16\/60 mm\.$/],
    ['85 %', 'sag', rear, /^85 % cannot be a sag \(0 % to 60 %\)/],
    ['0 %', 'sag', rear, /^0 % cannot be a sag/],
    ['26/10 mm', 'sag', rear, /^260 % cannot be a sag/],
    ['26/0', 'sag', rear, /cannot be a sag/],
    ['26 mm', 'sag', rear, /^26 mm of how much\? Write it with the shock's stroke, like 16\/60 mm\.$/],
    ['26 mm', 'sag', front, /Write it with the travel, like 27\/150 mm\.$/],
    ['2.4 bar', 'sag', rear, /is not a sag/],
    ['20 %', 'tyre', front, /is not a tyre pressure/],
    ['30 stone', 'tyre', front, /is not a tyre pressure/],
    ['24 bar', 'tyre', front, /^24 bar cannot be a tyre pressure \(0\.3 bar to 6 bar\)/],
    ['2 psi', 'tyre', front, /^2 psi cannot be a tyre pressure/],
    [
      '24',
      'spring',
      { end: 'front', like: ['5.5 bar', '80 psi'] },
      /^24 of what\? Write 5\.5 bar or 80 psi\.$/,
    ],
    ['24', 'spring', { end: 'front' }, /^24 of what\?$/],
    ['900', 'spring', front, /^900 of what\?/],
  ] as const)('%s as %s is told in one line', (text, reads, beside, why) => {
    const read = readNumber(text, reads, beside);
    expect(read).toMatchObject({ ok: false, why: expect.stringMatching(why) });
    expect(!read.ok && read.why).not.toContain('\n');
  });
  it('comes back from what is written of it', () => {
    for (const [text, reads] of [
      ['26/60 mm', 'sag'],
      ['2.37 bar', 'tyre'],
      ['23.4 psi', 'tyre'],
    ] as const) {
      const read = readNumber(text, reads, rear);
      if (!read.ok) throw new Error(read.why);
      const value = asWritten(read.value, read.unit);
      const again = readNumber(writeNumber(value, read.unit), reads, rear);
      expect(again).toMatchObject({ ok: true, unit: read.unit });
      expect(again.ok && again.value).toBeCloseTo(value, 9);
    }
    expect(writeNumber(asWritten(26 / 60, '%'), '%')).toBe('43.3 %');
  });
});

describe('a figure that is typed', () => {
  it.each([
    ['28 to 32 %', 'sag', [0.28, 0.32], '28 to 32 %'],
    ['28-32 %', 'sag', [0.28, 0.32], '28 to 32 %'],
    ['28 % to 32 %', 'sag', [0.28, 0.32], '28 to 32 %'],
    ['30 %', 'sag', [0.3, 0.3], '30 %'],
    ['1.6 to 1.8 bar', 'tyre', [1.6 * BAR, 1.8 * BAR], '1.6 to 1.8 bar'],
  ] as const)('%s is from one number to the other', (text, reads, band, written) => {
    const read = readBand(text, reads, rear);
    if (!read.ok) throw new Error(read.why);
    expect(read.band[0]).toBeCloseTo(band[0], 9);
    expect(read.band[1]).toBeCloseTo(band[1], 9);
    expect(writeBand(read.band, read.unit)).toBe(written);
  });
  it('that ends below its beginning, or is none, is told', () => {
    expect(readBand('32 to 28 %', 'sag', rear)).toMatchObject({ ok: false });
    expect(readBand('28 to 92 %', 'sag', rear)).toMatchObject({ ok: false });
    expect(readBand('as ever', 'tyre', rear)).toMatchObject({ ok: false });
  });
});

describe('what a number is held against', () => {
  const { questions, sheetCheck } = baseRules().rules;
  const gaugeOf = (id: string): Gauge => questions.find((q) => q.id === id)!.gauge!;
  const { near } = sheetCheck;

  it("is the usual sag of the pack's figures, in its own text too, two points either way", () => {
    const { figure, band } = targetOf(gaugeOf('sag@rear'), 'rear', undefined, near)!;
    expect(questions.find((q) => q.id === 'sag@rear')!.help).toContain(`rear ${writeBand(figure, '%')}.`);
    expect(band[0]).toBeCloseTo(figure[0] - 0.02, 9);
    expect(band[1]).toBeCloseTo(figure[1] + 0.02, 9);
  });
  it('is what is usual for the weight of the rider, and nothing where nobody weighed him', () => {
    const target = targetOf(gaugeOf('tyre-number@front'), 'front', undefined, near, 80)!;
    const [row] = near['tyre-for']!.rows.filter(({ kg }) => kg === 80);
    expect(target.figure[0] / PSI).toBeCloseTo(row!.front, 3);
    expect(targetOf(gaugeOf('tyre-number@front'), 'front', undefined, near)).toBeUndefined();
    expect(targetOf(gaugeOf('preload-place@front'), 'front', undefined, near, 80)).toBeUndefined();
  });
  it.each([
    [0.22, 'less'],
    [0.23, 'target'],
    [0.32, 'target'],
    [0.33, 'more'],
    [0.43, 'more'],
  ] as const)('makes %f an answer', (value, answer) => {
    const gauge = gaugeOf('sag@rear');
    expect(answerFor(value, targetOf(gauge, 'rear', undefined, near)!.band, gauge)).toBe(answer);
  });
  it('has room around a figure that is told, and none around a range', () => {
    const gauge = gaugeOf('sag@front');
    expect(bandTold([0.28, 0.32], gauge)).toEqual([0.28, 0.32]);
    expect(bandTold([0.3, 0.3], gauge).map((share) => Math.round(100 * share))).toEqual([28, 32]);
  });
});

it.each([
  ['2', 'tyre', ['2 bar']],
  ['2', 'spring', ['2 bar']],
  ['02', 'tyre', ['2 bar']],
  ['5', 'tyre', ['5 psi', '5 bar']],
  ['9', 'tyre', ['9 psi']],
  ['2', 'sag', []],
] as const)('%s alone can be read off the gauge of a %s as %j', (digits, reads, readings) => {
  expect(readingsOf(digits, reads)).toEqual(readings);
});

describe('a sag that was read off a ring', () => {
  it.each([
    ['7/120 mm', '7/120 mm'],
    ['22 of 170', '22/170 mm'],
    ['12.3/52.5 mm', '12.3/52.5 mm'],
    ['16.5/57.5 mm', '16.5/57.5 mm'],
    ['2.6 cm of 60 mm', '26/60 mm'],
    ['1.05/6 in', '1.05/6 in'],
    ['0.43/2.4 in', '0.43/2.4 in'],
  ] as const)('%s is written as it was told, and read again as the same share', (text, written) => {
    const share = (of: string): number => {
      const read = readNumber(of, 'sag', front);
      return read.ok ? asWritten(read.value, read.unit) : NaN;
    };
    const { length } = readNumber(text, 'sag', front) as { length: Parameters<typeof writeLength>[1] };
    expect(writeLength(share(text), length)).toBe(written);
    expect(share(written)).toBe(share(text));
  });
  it('is aimed at in whole millimetres of a fork, in half ones of a shock', () => {
    expect(writeAim(0.175, { whole: 0.17, unit: 'mm' })).toBe('30 of 170 mm');
    expect(writeAim(0.275, { whole: 0.0525, unit: 'mm' })).toBe('14.5 of 52.5 mm');
    expect(writeAims([0.13, 0.22], { whole: 0.12, unit: 'mm' })).toBe('15.5 to 26.5 mm');
  });
  it('has no length where it was told as a share', () => {
    expect(readNumber('43 %', 'sag', front)).not.toHaveProperty('length');
    expect(readNumber('26 mm', 'sag', { end: 'rear', whole: 0.06 })).toMatchObject({
      length: { whole: 0.06, unit: 'mm' },
    });
  });
});
