import { describe, expect, it } from 'vitest';
import { changeWords } from '../../src/report/bike/metric-words.ts';

const SAG = { plus: 'below sag', minus: 'above sag' };
const DEPTH = { up: 'deeper', down: 'higher' };
const words = { up: 'more', down: 'less' };

describe('a change of a metric in words', () => {
  it.each([
    [21.1, 12.2, 18.4, 'mm', '12 to 18 mm more, now 21 mm'],
    [21.1, -5.6, -2.1, 'mm', '2.1 to 5.6 mm less, now 21 mm'],
    [0.04, 0.21, 0.272, 'm/s', '0.21 to 0.27 m/s more, now 0.04 m/s'],
    [2, 1, 1, 'moves', 'about 1.0 moves more, now 2.0 moves'],
    [1046.287, 0.4, 130, 'N', 'up to 130 N more, now 1046 N'],
    [1046.287, 12, 130, 'N', '12 to 130 N more, now 1046 N'],
    [3, -0.4, 1.2, 's', '0.4 s less to 1.2 s more, now 3.0 s'],
    [3, 0, 0, 's', 'the same, 3.0 s'],
  ])('from %d by %d to %d %s', (before, least, most, unit, text) =>
    expect(changeWords({ before, least, most, unit, words })).toBe(text),
  );

  it.each([
    [21.1, -5.1, -3.2, '3.2 to 5.1 mm higher, now 21 mm below sag'],
    [-3.8, 3.2, 5.1, '3.2 to 5.1 mm deeper, now 3.8 mm above sag'],
    [0, 3.2, 5.1, '3.2 to 5.1 mm deeper, now 0 mm'],
  ])('with sides, from %d by %d to %d, has no sign to explain', (before, least, most, text) =>
    expect(changeWords({ before, least, most, unit: 'mm', sides: SAG, words: DEPTH })).toBe(text),
  );
});
