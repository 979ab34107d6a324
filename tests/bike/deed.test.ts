import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Change } from '../../src/bike/change.ts';
import { changesOf, isSameDeed, printDeed, readDeed } from '../../src/bike/deed.ts';

const step = fc
  .tuple(
    fc.constantFrom<[string, Change['unit']]>(
      ['front.rebound.low', 'clicks'],
      ['rear.spring', 'psi'],
      ['front.ramp-up', 'spacers'],
    ),
    fc.integer({ min: 1, max: 40 }),
    fc.boolean(),
  )
  .map(([[setting, unit], by, more]): Change => ({ setting, by: more ? by : -by, unit }));

it('what was turned is read as it is printed', () => {
  const several = fc.uniqueArray(step, { minLength: 1, selector: ({ setting }) => setting });
  fc.assert(
    fc.property(several, (changes) => {
      expect(readDeed(printDeed({ changes }))).toEqual({ changes });
    }),
  );
});

it.each(['front.service', 'front.rebund.low+2', 'front.rebound.low+2,front.rebound.low+1', ''])(
  'what is no change keeps its name: %s',
  (text) => {
    expect(readDeed(text)).toEqual({ name: text });
    expect(printDeed(readDeed(text))).toBe(text);
    expect(changesOf(readDeed(text))).toEqual([]);
  },
);

it('the same step is the same however it was written', () => {
  expect(isSameDeed(readDeed('front.ramp-up+1'), readDeed('front.ramp-up + 1 spacer'))).toBe(true);
  expect(isSameDeed(readDeed('front.ramp-up+1'), readDeed('front.ramp-up-1'))).toBe(false);
});

it.each([
  ['front.spring-5psi', 'front.spring-0.35bar', true],
  ['front.spring-0.34bar', 'front.spring-5psi', true],
  ['front.spring-5psi', 'front.spring-0.3bar', false],
  ['front.spring-5psi', 'front.spring+0.35bar', false],
  ['front.spring-5psi', 'front.spring-5psi,front.rebound.low+1', false],
  ['front.rebound.low+1,rear.rebound.low-1', 'rear.rebound.low-1,front.rebound.low+1', true],
])('a step in another unit is the same, as near as gauges tell: %s and %s', (one, other, same) => {
  expect(isSameDeed(readDeed(one), readDeed(other))).toBe(same);
  expect(isSameDeed(readDeed(other), readDeed(one))).toBe(same);
});
