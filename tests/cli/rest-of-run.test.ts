import { describe, expect, it } from 'vitest';
import { readRest } from '../../src/cli/asking/rest-of-run.ts';
import { Refusal } from '../../src/host/io.ts';

describe('what is typed behind the ratings of a run', () => {
  it.each([
    ['61.2', { seconds: 61.2 }],
    [' 61,2 s ', { seconds: 61.2 }],
    ['61', { seconds: 61 }],
    ['1:01.2', { seconds: 61.2 }],
    ['61.2, slid once', { seconds: 61.2, note: 'slid once' }],
    ['61.2; slid once', { seconds: 61.2, note: 'slid once' }],
    ['61.2 slid once', { seconds: 61.2, note: 'slid once' }],
    ['61.2s slid', { seconds: 61.2, note: 'slid' }],
    ['61.2 s slid', { seconds: 61.2, note: 'slid' }],
    ['61 sec slid', { seconds: 61, note: 'slid' }],
    ['61.2 - slid', { seconds: 61.2, note: 'slid' }],
    ['61 – slid', { seconds: 61, note: 'slid' }],
    ['1:01 slid', { seconds: 61, note: 'slid' }],
    ['61.2, 2 slides', { seconds: 61.2, note: '2 slides' }],
    ['slid once', { note: 'slid once' }],
    ['', {}],
    ['c', {}],
    ["can't tell", {}],
    ['crashed', { note: 'crashed' }],
  ])('%j is %j', (typed, read) => {
    expect(readRest(typed)).toEqual(read);
  });
  it.each(['2 riders in the way', '3rd gear slipped', '61.2slid', '61.2,', '61.2 - 3', '61.2!'])(
    'asks again at %j, where it is not plain that the number is the time',
    (typed) => {
      expect(() => readRest(typed)).toThrow(Refusal);
      expect(() => readRest(typed)).toThrow(/if \d+(\.\d)? is the time, put a comma after it: /);
    },
  );
  it.each(['1:62, slid', '1.2.3 slid'])('refuses %j, which is no time', (typed) => {
    expect(() => readRest(typed)).toThrow('write seconds, 61.2, or minutes and seconds, 1:01.2.');
  });
});
