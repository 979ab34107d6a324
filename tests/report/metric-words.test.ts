import { describe, expect, it } from 'vitest';
import { beforeAfter } from '../../src/report/metric-words.ts';

const SAG = { plus: 'below sag', minus: 'above sag' };

describe('a metric before and after', () => {
  it.each([
    [21.1, 16.0, 'mm', '21 → 16 mm'],
    [5.5, 1.4, 'mm', '5.5 → 1.4 mm'],
    [39.91, 39.13, '%', '39.9 → 39.1 %'],
    [0.04, 0.27, 'm/s', '0.04 → 0.27 m/s'],
    [2, 3, 'moves', '2 → 3 moves'],
    [1046.287, 1046.29, 'N', '1046 → 1046 N'],
    [-0.0001, 0.0001, 's', '0.000 → 0.000 s'],
  ])('%d and %d %s', (before, after, unit, words) =>
    expect(beforeAfter({ before, after, unit })).toBe(words),
  );

  it.each([
    [21.1, 16.0, '21 → 16 mm below sag'],
    [-3.8, -8.4, '3.8 → 8.4 mm above sag'],
    [2.1, -2.2, '2.1 mm below sag → 2.2 mm above sag'],
    [0.001, -2.2, '0.0 → 2.2 mm above sag'],
  ])('with sides, %d and %d, has no sign to explain', (before, after, words) =>
    expect(beforeAfter({ before, after, unit: 'mm', sides: SAG })).toBe(words),
  );
});
