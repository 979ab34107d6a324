import { expect, it } from 'vitest';
import { buildTriedReader } from '../../src/words/tried.ts';
import { baseRules } from './base-pack.ts';

const reader = buildTriedReader(baseRules());
/** end.setting direction by unit → result, and whether it was put back */
const told = (said: string): string[] =>
  reader
    .read(said)
    .map((t) =>
      [
        t.end ?? '?',
        t.setting,
        t.direction,
        ...(t.by === undefined ? [] : [`${t.by} ${t.unit}`]),
        t.result,
        ...(t.putBack === 'yes' ? ['put back'] : []),
      ].join(' '),
    );

it.each([
  ['opened the compression and it got worse', ['? compression open worse']],
  ['two clicks slower rebound, no difference', ['? rebound close 2 clicks same']],
  ['I let 6 psi out of the fork and if anything it got worse', ['front spring less 6 psi worse']],
  ['Added two volume spacers to the shock, much better', ['rear ramp-up more 2 spacers better']],
  [
    'Took a token out of the fork, helped, but I put it back',
    ['front ramp-up less 1 spacers better put back'],
  ],
  [
    'closed the high-speed compression on the shock three clicks: no change',
    ['rear compression.high close 3 clicks same'],
  ],
  ['Two clicks slower on the rebound, did nothing', ['? rebound close 2 clicks same']],
  ['opened two clicks on the compression, it got worse', ['? compression open 2 clicks worse']],
  ['Lowered the tyre pressure a bit, helped a little', ['? tyre less better']],
])('%s', (said, expected) => {
  expect(told(said)).toEqual(expected);
});

it.each([
  'the fork dives and the rear kicks',
  'compression is already fully open',
  'it got worse',
  // A denial is no result, and "on" is no way to turn.
  'hardly any tread left on the rear tyre',
  'no clicks left on the rebound',
  'hardly any rebound left on the rear',
  '',
])('reads no trial into: %s', (said) => {
  expect(told(said)).toEqual([]);
});

it('never confirms anything itself', () => {
  expect(reader.read('opened the compression and it got worse')[0]).toMatchObject({ confirmed: false });
});
