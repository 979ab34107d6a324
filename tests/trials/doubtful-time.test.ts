import { expect, it } from 'vitest';
import { doubtfulTime } from '../../src/trials/record.ts';

const rode = (...seconds: (number | undefined)[]) => ({
  ridden: seconds.map((one) => ({
    arm: 'plus' as const,
    ratings: {},
    ...(one === undefined ? {} : { seconds: one }),
  })),
});

it.each([
  ['a time of minutes, where nothing else was timed', [], 240, undefined],
  ['an hour, where nothing else was timed', [undefined], 3600, undefined],
  ['a key of the mark before', [], 2, '2 s'],
  ['a short section', [], 5, undefined],
  ['a slip', [], 45_445, '12 h 37 min'],
  ['a time like the others', [61, 63, 70], 80, undefined],
  ['a comma left out', [61, 63, 70], 612, '10 min 12 s, and the other runs took about 63 s'],
  ['a digit left out', [61, undefined, 63], 6, '6 s, and the other runs took about 63 s'],
  ['long runs, all of them', [4000, 4100], 4050, undefined],
])('%s', (_, others, seconds, said) => {
  expect(doubtfulTime(rode(...others), seconds)).toBe(said);
});
