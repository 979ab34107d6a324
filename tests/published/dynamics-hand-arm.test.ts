/**
 * The weighting of vibration at the hands: all 24 factors of ISO 5349-1:2001 table A.2 (read in a ministry's excerpt
 * that reproduces it through JIS B 7761-3). Band centres are 10^(i/10) Hz, not the nominal ones.
 */
import FFT from 'fft.js';
import { describe, expect, it } from 'vitest';
import { circle, transform } from '../../src/physics/machine/loops/spectrum.ts';
import { handWeight, weightedVibration } from '../../src/physics/ride/vibration.ts';

/** band number, nominal Hz, factor as printed */
const TABLE: readonly (readonly [number, number, number])[] = [
  [8, 6.3, 0.727],
  [9, 8, 0.873],
  [10, 10, 0.951],
  [11, 12.5, 0.958],
  [12, 16, 0.896],
  [13, 20, 0.782],
  [14, 25, 0.647],
  [15, 31.5, 0.519],
  [16, 40, 0.411],
  [17, 50, 0.324],
  [18, 63, 0.256],
  [19, 80, 0.202],
  [20, 100, 0.16],
  [21, 125, 0.127],
  [22, 160, 0.101],
  [23, 200, 0.0799],
  [24, 250, 0.0634],
  [25, 315, 0.0503],
  [26, 400, 0.0398],
  [27, 500, 0.0314],
  [28, 630, 0.0245],
  [29, 800, 0.0186],
  [30, 1000, 0.0135],
  [31, 1250, 0.00894],
];

describe('the hand-arm weighting', () => {
  it.each(TABLE)('band %i (%f Hz) has the factor %f', (band, _nominal, factor) => {
    expect(Number(handWeight(10 ** (band / 10)).toPrecision(3))).toBe(factor);
  });

  it('weighs a steady tone of any band by its factor', () => {
    const step = 0.00025;
    for (const [band, , factor] of TABLE) {
      const frequency = 10 ** (band / 10);
      const tone = Float64Array.from(
        { length: 16_384 },
        (_, i) => 3 * Math.sin(2 * Math.PI * frequency * i * step),
      );
      const rms = weightedVibration(tone, step);
      expect(Math.abs(rms / ((3 / Math.SQRT2) * factor) - 1)).toBeLessThan(0.01);
    }
  });

  it('adds two tones as the root of the sum of squares', () => {
    const step = 0.00025;
    const tone = (frequency: number): Float64Array =>
      Float64Array.from({ length: 8192 }, (_, i) => Math.sin(2 * Math.PI * frequency * i * step));
    const [low, high] = [tone(15.625), tone(125)];
    const both = low.map((value, i) => value + high[i]!);
    expect(weightedVibration(both, step)).toBeCloseTo(
      Math.hypot(weightedVibration(low, step), weightedVibration(high, step)),
      6,
    );
  });
});

describe('the transform behind it', () => {
  it('is the one of an independent library (fft.js)', () => {
    const size = 256;
    const signal = Float64Array.from({ length: size }, (_, i) => Math.sin(i * 0.37) + ((i * 7919) % 13) / 13);
    const re = signal.slice();
    const im = new Float64Array(size);
    const [cos, sin] = [new Float64Array(size / 2), new Float64Array(size / 2)];
    circle(cos, sin, size);
    transform(re, im, size, cos, sin);
    const fft = new FFT(size);
    const out = fft.createComplexArray();
    fft.transform(out, fft.toComplexArray([...signal], undefined));
    for (let i = 0; i < size; i++) {
      expect(re[i]).toBeCloseTo(out[2 * i]!, 9);
      expect(im[i]).toBeCloseTo(out[2 * i + 1]!, 9);
    }
  });
});
