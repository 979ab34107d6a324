import fc from 'fast-check';
import { expect, it } from 'vitest';
import { finePercent, percent, wholePercent } from '../../src/form/text.ts';

it.each([
  [0, 'under 1 %'],
  [0.004, 'under 1 %'],
  [0.006, '1 %'],
  [0.994, '99 %'],
  [0.996, 'over 99 %'],
  [1, 'over 99 %'],
])('a chance of %f is %s', (p, said) => expect(percent(p)).toBe(said));

it('says none and certain of nothing', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (p) => {
      expect(['0 %', '100 %']).not.toContain(percent(p));
    }),
  );
});

it('rounds what was counted, and keeps half a percent of what is small', () => {
  expect([wholePercent(0.004), wholePercent(0.996)]).toEqual(['0 %', '100 %']);
  expect([finePercent(0.072), finePercent(0.0996), finePercent(0.725)]).toEqual(['7.2 %', '10.0 %', '73 %']);
});
