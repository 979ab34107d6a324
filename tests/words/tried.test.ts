import { expect, it } from 'vitest';
import { buildTriedReader } from '../../src/words/tried/tried.ts';
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

// A piece of a figure is no amount: read as one, a quarter would be four.
it.each([
  ['opened the rear preload 1/4 turn and it is worse', 'rear spring less worse'],
  ['added 1 1/2 turns of preload to the rear, better', 'rear spring more better'],
  ['added half a turn of preload to the rear, better', 'rear spring more better'],
  ['opened the rebound 2-3 clicks, better', '? rebound open better'],
  ['opened the rebound two/three clicks, better', '? rebound open better'],
  // Where it stands now is not how far it was turned.
  ['pumped the fork up to 80 psi and it is better', 'front spring more better'],
  ['opened the rebound to 10 clicks, better', '? rebound open better'],
])('%s', (said, expected) => {
  expect(told(said)).toEqual([expected]);
});

it.each([
  'I have not opened the rear rebound. It got worse',
  "I haven't added 5 psi to the fork and it is worse",
  'Never opened the rebound but it got better',
])('what was not done is nothing tried: %s', (said) => {
  expect(told(said)).toEqual([]);
  expect(reader.changed(said)).toEqual([]);
});

// What was done tells the way, whatever small words stand behind it in what came of it.
it.each([
  ['opened', 'open'],
  ['backed off', 'open'],
  ['sped up', 'open'],
  ['softened', 'open'],
  ['closed', 'close'],
  ['slowed', 'close'],
  ['slowed down', 'close'],
  ['firmed', 'close'],
  ['firmed up', 'close'],
])('%s is %s, whatever came of it', (did, way) => {
  for (const [name, end] of [
    ['fork', 'front'],
    ['shock', 'rear'],
  ])
    for (const knob of ['rebound', 'compression'])
      for (const [came, result] of [
        ['and it was worse in the rough', 'worse'],
        ['and it got better in roots', 'better'],
        ['and it came out of corners worse', 'worse'],
        ['and coming out of corners it got better', 'better'],
        ['and it was faster, better', 'better'],
        ['and I was slower, worse', 'worse'],
        ['because it was too slow, better', 'better'],
        ['in the rough and it was better', 'better'],
      ])
        for (const clicks of ['2 clicks', 'two clicks'])
          expect(
            told(`I ${did} the ${name} ${knob} ${clicks} ${came}`).map((t) => t.replace(/ \(.*/, '')),
          ).toEqual([`${end} ${knob} ${way} 2 clicks ${result}`]);
});

it.each([
  ['fork rebound 2 clicks in and it came out of corners worse', ['front rebound close 2 clicks worse']],
  ['shock rebound 2 clicks out and it was better in the park', ['rear rebound open 2 clicks better']],
  ['two clicks in on the shock compression, better', ['rear compression close 2 clicks better']],
  ['two clicks out on the fork compression, worse', ['front compression open 2 clicks worse']],
  ['wound the shock rebound out two clicks, better', ['rear rebound open 2 clicks better']],
  ['turned the fork rebound in two clicks, worse', ['front rebound close 2 clicks worse']],
  ['opened the slow rebound on the fork, better', ['front rebound open better']],
  ['open fork rebound 2 clicks, better', ['front rebound open 2 clicks better']],
  [
    'two clicks in on the fork rebound worse took it out again',
    ['front rebound close 2 clicks worse put back'],
  ],
  // In another part only where it is said of the setting.
  ['the fork rebound was too slow so I opened it two clicks, better', ['front rebound open 2 clicks better']],
  ['the shock rebound was fast so I closed it two clicks, worse', ['rear rebound close 2 clicks worse']],
  [
    'opened the rebound and the compression on the fork, better',
    ['? rebound open better', 'front compression open better'],
  ],
  [
    'closed the rebound and the compression two clicks on the shock, worse',
    ['? rebound close 2 clicks worse', 'rear compression close 2 clicks worse'],
  ],
  [
    'opened the fork rebound and closed the compression, better',
    ['front rebound open better', 'front compression close better'],
  ],
])('tells the way a knob was turned: %s', (said, expected) => {
  expect(told(said)).toEqual(expected);
});

it.each([
  ['dropped the tyre pressure from 28 to 24 psi, more grip', ['? tyre less 4 psi better']],
  ['raised the rear tyre pressure from 24 to 28 psi, worse', ['rear tyre more 4 psi worse']],
  ['front tyre pressure down 3 psi, more grip', ['front tyre less 3 psi better']],
  ['dropped the pressure in the front tyre by 2 psi, more grip', ['front tyre less 2 psi better']],
  ['let 4 psi out of the rear tyre, better', ['rear tyre less 4 psi better']],
  ['added 4 psi of air in the rear tyre, worse', ['rear tyre more 4 psi worse']],
  ['raised the fork pressure from 70 to 75 psi, better', ['front spring more 5 psi better']],
  ['let the shock air pressure down 5 psi, worse', ['rear spring less 5 psi worse']],
  ['added 5 psi air pressure to the shock, worse', ['rear spring more 5 psi worse']],
  // Two that were both named stand side by side, each with its own figure.
  [
    'took 2 psi out of the front tyre and added 5 psi to the fork, better',
    ['front tyre less 2 psi better', 'front spring more 5 psi better'],
  ],
  [
    'dropped the rear tyre 3 psi and raised the shock 5 psi, better',
    ['rear tyre less 3 psi better', 'rear spring more 5 psi better'],
  ],
])('takes what lies within a longer setting for no other: %s', (said, expected) => {
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
  // What the bike or the rider did then is no way to turn a knob.
  'fork rebound 2 clicks and I slowed down in the roots, worse',
  'rear compression 2 clicks and it came out of corners better',
  'fork rebound 2 clicks better in roots',
  'the compression is too firm, worse in the rough',
  '',
])('reads no trial into: %s', (said) => {
  expect(told(said)).toEqual([]);
});

it('never confirms anything itself', () => {
  expect(reader.read('opened the compression and it got worse')[0]).toMatchObject({ confirmed: false });
});

it('tells what the words alone can be counted in, where no number was said', () => {
  const unit = (said: string) => reader.read(said).map((t) => [t.by, t.unit]);
  expect(unit('I keep putting air in the fork and it gets worse')).toEqual([[undefined, 'psi']]);
  expect(unit('put 8 psi more air in the fork and it got worse')).toEqual([[8, 'psi']]);
  expect(unit('more preload on the shock, no difference')).toEqual([[undefined, undefined]]);
});
