import { expect, it } from 'vitest';
import { toAscii } from '../../src/report/style.ts';

it.each([
  ['−6.0 dB', '-6.0 dB'],
  ['8 → 10', '8 -> 10'],
  ['1–3 …', '1-3 ...'],
  ['≥ 5, ≤ 7, ±1, 2 × 3', '>= 5, <= 7, +-1, 2 x 3'],
  ['20 °C, 67°', '20 C, 67 degrees'],
  ['“said”, it’s', '"said", it\'s'],
  ['█░ · ›', '#. - >'],
])('a terminal of ASCII only shows %s as %s', (text, ascii) => expect(toAscii(text)).toBe(ascii));
