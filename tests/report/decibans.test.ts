import { expect, test } from 'vitest';
import { decibanNumber, decibanWords } from '../../src/report/decibans.ts';

test.each([
  [10, '10 times as likely'],
  [3.0103, '2 times as likely'],
  [4.9, '3.1 times as likely'],
  [-6.0206, '4 times less likely'],
  [22, '160 times as likely'],
  [-30, '1000 times less likely'],
  [0.1, 'hardly matters'],
  [-0.1, 'hardly matters'],
])('%d dB in words', (decibans, words) => {
  expect(decibanWords(decibans)).toBe(words);
});

test('numbers have a sign, one digit and a real minus', () => {
  expect([4.93, -6.02, 0, -0.04].map(decibanNumber)).toEqual(['+4.9 dB', '−6.0 dB', '+0.0 dB', '+0.0 dB']);
});
