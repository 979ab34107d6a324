/** An answer whose end nobody knows holds a change back at both ends; one whose end is found, only there. */
import { describe, expect, it } from 'vitest';
import { given, mayBeGiven } from '../../src/advice/hold-back.ts';
import { earshot } from '../support/io.ts';
import type { Known } from '../../src/diagnosis/gates.ts';

const known = (answers: Record<string, string>, also: Record<string, string[]> = {}): Known => ({
  answers: new Map(Object.entries(answers)),
  also: new Map(Object.entries(also)),
  bike: () => undefined,
});
const low = (end: string) => [{ on: 'question' as const, id: `ride-height@${end}`, values: ['low'] }];

describe('what holds back a change', () => {
  it.each([
    ['said of an end not known: at both', { 'ride-height@either': 'low' }, {}, [true, true]],
    [
      'said second of an end not known: at both',
      { 'ride-height@either': 'level' },
      { 'ride-height@either': ['low'] },
      [true, true],
    ],
    ['another answer: at none', { 'ride-height@either': 'level' }, {}, [false, false]],
    [
      'found to be of the front: there alone',
      { 'ride-height@either': 'low', 'ride-height@front': 'low' },
      {},
      [true, false],
    ],
    [
      'found to be of the rear, for the front is right: there alone',
      { 'ride-height@either': 'low', 'ride-height@front': 'level', 'ride-height@rear': 'low' },
      {},
      [false, true],
    ],
  ])('%s', (_, answers, also, [front, rear]) => {
    const told = known(answers as Record<string, string>, also as Record<string, string[]>);
    expect([mayBeGiven(low('front'), told), mayBeGiven(low('rear'), told)]).toEqual([front, rear]);
  });

  it('is no proof: that is given only at the end that it is asked of', () => {
    expect(given(low('front'), known({ 'ride-height@either': 'low' }))).toBe(false);
  });
});

it.each([
  ['front', true],
  ['rear', false],
  ['either', false],
])('a rear rebound is closed where the low end is %s: %s', async (end, closed) => {
  const answers = {
    'safety.found': 'none',
    'safety.brakes': 'good',
    'kerb-drop@rear': 'bounces',
    'push-return@rear': 'springs',
    'liveliness@rear': 'nervous',
    [`ride-height@${end}`]: 'low',
  };
  const stdin = JSON.stringify({ case: 1, id: 'x', answers });
  const { out } = await earshot(['diagnose', '-'], { stdin });
  expect(/^Do this first\n {2}Close the rear/m.test(out)).toBe(closed);
  expect(out.includes('Not "Close the rear')).toBe(!closed);
});
