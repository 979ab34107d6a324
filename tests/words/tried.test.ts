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
        ...(t.for === undefined ? [] : [`(${t.for.join(', ')})`]),
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
  // What is filled is let out, and what lies between two figures is how far.
  ['10psi out of the shock, better', ['rear spring less 10 psi better']],
  ['took one token out of the fork, no difference', ['front ramp-up less 1 spacers same']],
  ['went up from 72 to 78 psi in the fork, worse', ['front spring more 6 psi worse']],
  // What is faster by clicks is the rebound, unless another knob is named.
  ['two clicks slower at the rear, better', ['rear rebound close 2 clicks better']],
  ['Dropped 3 clicks of HSC. Hands happier', ['? compression.high less 3 clicks better']],
  [
    'One click faster at the rear: better in roots, worse on jumps.',
    [
      'rear rebound open 1 clicks better (repeated-hits.trend, chatter)',
      'rear rebound open 1 clicks worse (lip)',
    ],
  ],
  [
    'opened the compression on the fork, better in roots and worse under braking',
    [
      'front compression open better (repeated-hits.trend, chatter)',
      'front compression open worse (brake-dive, brake-rear)',
    ],
  ],
  [
    "two clicks faster on the rebound and it's better in the rocks but now kicks off lips",
    ['? rebound open 2 clicks better (repeated-hits.trend, chatter)', '? rebound open 2 clicks worse (lip)'],
  ],
  [
    'Tried 1 volume spacer out, more supple but dives more. Put it back.',
    ['? ramp-up less 1 spacers better put back', '? ramp-up less 1 spacers worse (brake-dive) put back'],
  ],
  // The same again is no second result, and one of all of the ride is none beside the first.
  ['opened the rebound two clicks, better, and better on jumps', ['? rebound open 2 clicks better']],
  ['opened the rebound two clicks, better, but the chain is worse', ['? rebound open 2 clicks better']],
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
