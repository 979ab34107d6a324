/** Settings that packs bring: on the sheet, in changes, in the log. */
import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/bike/apply.ts';
import { parseChange } from '../../src/bike/change.ts';
import { sheetFact } from '../../src/bike/facts.ts';
import { newSteps } from '../../src/bike/form/new-steps.ts';
import type { OwnSetting } from '../../src/bike/own-setting.ts';
import { saidOf } from '../../src/bike/form/said.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { movedBetween, standsOf, withStands } from '../../src/bike/setting-values.ts';
import { writeSheet } from '../../src/bike/form/write.ts';
import { exampleData } from './example.ts';

const ownOf = (key: string, more: Partial<OwnSetting>, end?: 'front'): OwnSetting => ({
  id: end === undefined ? key : `${end}.${key}`,
  ...(end === undefined ? {} : { end }),
  key,
  words: end === undefined ? key : `${end} ${key}`,
  unit: 'clicks',
  range: [1, 100],
  grain: 1,
  stale: [],
  find: 'Look.',
  ...more,
});
const OWN: readonly OwnSetting[] = [
  ownOf('bottom-out', { stale: ['travel-used'] }, 'front'),
  ownOf('lever', { unit: 'positions', positions: ['closed', 'middle', 'open'], range: [0, 2] }, 'front'),
  ownOf('bar-width', { unit: 'mm', range: [700, 850], grain: 5 }),
];

/** The all-knobs bike with these at the front, and a width. */
const withFront = (front: object, more: object = {}) => {
  const data = exampleData('all-knobs');
  return readSheet({ ...data, front: { ...(data['front'] as object), ...front }, ...more }, OWN);
};
const told = (read: ReturnType<typeof withFront>): string[] =>
  read.problems.map((p) => `${p.path.join('.')}: ${p.message} ${p.remedy}`);

describe('a pack setting on a sheet', () => {
  const forms = [
    [{ 'bottom-out': { clicks: 4, now: 3, maker: 2 } }, {}],
    [{ 'bottom-out': { clicks: 'unknown', now: 3 } }, {}],
    [{ 'bottom-out': 'none', lever: 'none' }, {}],
    [{ lever: { now: 'middle' } }, { 'bar-width': { now: 780, maker: 800 } }],
    [{ lever: { now: 'closed', positions: ['closed', 'open'] } }, {}],
    [{ lever: { now: 'unknown' } }, { 'bar-width': { now: 780, min: 740, max: 800 } }],
  ] as const;
  it.each(forms)('is written as it was read: %j %j', (front, more) => {
    const read = withFront(front, more);
    expect(told(read)).toEqual([]);
    expect(writeSheet(read.sheet!)).toMatchObject({ front, ...more });
    const again = readSheet(writeSheet(read.sheet!), OWN).sheet!;
    expect(writeSheet(again)).toEqual(writeSheet(read.sheet!));
  });
  it('may be told as which of how many, whose ends are the ones of the pack', () => {
    expect(writeSheet(withFront({ lever: '3/4' }).sheet!)).toMatchObject({
      front: { lever: { now: '3-of-4', positions: ['closed', '2-of-4', '3-of-4', 'open'] } },
    });
    expect(writeSheet(withFront({ lever: '2/3' }).sheet!)).toMatchObject({
      front: { lever: { now: 'middle' } },
    });
    expect(told(withFront({ lever: '6/5' }))).toEqual([
      'front.lever: front › lever: 6/5 is not a position of the front lever. Write one of closed, middle, open, or none; or which of how many from closed on, such as 2/5.',
    ]);
    const bike = saidOf({ front: { spring: 'air', lever: '2/5' } } as never, OWN).bike!;
    expect(sheetFact(bike, 'front.lever')).toBe('middle');
  });
  it('may be the value alone, with a unit of the same kind', () => {
    const { sheet } = withFront({ lever: 'open' }, { 'bar-width': '30 in' });
    expect(writeSheet(sheet!)).toMatchObject({
      front: { lever: { now: 'open' } },
      'bar-width': { now: 762 },
    });
  });
  it.each([
    [
      { lever: 'opne' },
      {},
      'front.lever: front › lever: opne is not a position of the front lever. Did you mean open?',
    ],
    [
      { 'bottom-out': { clicks: 4, now: 5 } },
      {},
      'front.bottom-out.now: front › bottom-out: now is 5 clicks from closed, but the knob has only 4. Count again from fully closed, without force.',
    ],
    [
      {},
      { 'bar-width': 900 },
      'bar-width: bar-width: 900 is outside 700 to 850 mm. Write a number from 700 to 850 (mm), or none.',
    ],
    [
      {},
      { 'bar-width': '5 psi' },
      'bar-width: bar-width: 5 psi is not a number for the bar-width. Write a number from 700 to 850 (mm), or none.',
    ],
  ])('is refused where it is wrong: %j %j', (front, more, message) => {
    const read = withFront(front, more);
    expect(read.sheet).toBeUndefined();
    expect(told(read)).toEqual([message]);
  });
  it('is no key of a sheet that is read without the pack', () => {
    const { problems } = readSheet({ ...exampleData('all-knobs'), 'bar-width': 780 });
    expect(problems.map((p) => p.message)).toEqual(['A bike sheet: bar-width is not known here.']);
    expect(problems[0]!.remedy).toContain('What a rule pack adds is known with that pack: --rules FOLDER.');
  });
  it('is asked when a sheet is written', () => {
    const asked = newSteps({}, { own: OWN }).map((step) => step.path);
    expect(asked).toEqual(
      expect.arrayContaining(['front.bottom-out.clicks', 'front.lever', 'bar-width.now']),
    );
    expect(newSteps({}).map((step) => step.path)).not.toContain('front.lever');
  });
  it.each([
    [{ 'bottom-out': { clicks: 4 } }, 'front.bottom-out', 'knob'],
    [{ 'bottom-out': 'none' }, 'front.bottom-out', 'none'],
    [{}, 'front.bottom-out', undefined],
    [{ lever: 'middle' }, 'front.lever', 'middle'],
    [{ lever: 'unknown' }, 'front.lever', undefined],
    [{ lever: '1/5' }, 'front.lever', 'closed'],
    [{ lever: '2 of 5' }, 'front.lever', 'middle'],
    [{ lever: { now: '4/5' } }, 'front.lever', 'middle'],
    [{ lever: '5/5' }, 'front.lever', 'open'],
    [{ lever: '2/2' }, 'front.lever', 'open'],
    // Other ends than the pack's: nobody knows which way they go.
    [{ lever: { now: 'b', positions: ['a', 'b', 'open'] } }, 'front.lever', undefined],
  ])('answers gates: %j says of %s %s', (front, path, fact) => {
    expect(sheetFact(withFront(front).sheet!, path)).toBe(fact);
  });
});

describe('a change of a pack setting', () => {
  const { sheet } = withFront({ 'bottom-out': { clicks: 4, now: 3 }, lever: 'closed' }, { 'bar-width': 780 });
  const after = (text: string) => {
    const { changes, problems } = parseChange(text, OWN);
    return problems.length > 0 ? { problems, steps: [] } : applyChanges(sheet!, changes);
  };
  it('is made on the sheet, and takes off what it makes untrue', () => {
    const { sheet: now } = after('front.bottom-out-1, front.lever+2, bar-width-10mm') as {
      sheet: typeof sheet;
    };
    expect(movedBetween(sheet!, now!)).toEqual([
      { setting: 'front.bottom-out', from: 3, to: 2, unit: 'clicks' },
      { setting: 'front.lever', from: 'closed', to: 'open' },
      { setting: 'bar-width', from: 780, to: 770, unit: 'mm' },
      { setting: 'front.travel-used', from: '92%', to: 'not recorded' },
    ]);
  });
  it('is taken back by name, as a log keeps it', () => {
    const { sheet: now } = after('front.lever+1,front.bottom-out+1') as { sheet: typeof sheet };
    const back = withStands(now!, standsOf(sheet!));
    expect(back.refused).toEqual([]);
    expect(writeSheet(back.sheet)).toEqual(writeSheet(sheet!));
  });
  it.each([
    [
      'front.bottom-out+2',
      'front.bottom-out is at 3. 5 clicks is beyond its stop (fully open): 4. At most front.bottom-out+1.',
    ],
    [
      'front.lever-1',
      'front.lever is at 0. -1 positions is beyond closed: 0. It goes no further that way: choose another adjustment.',
    ],
    ['front.bottom-out+1mm', 'front.bottom-out is not changed in mm. Use clicks: front.bottom-out+1clicks.'],
    ['front.levr+1', 'There is no setting front.levr to change. Did you mean front.lever?'],
  ])('is refused where it cannot be: %s', (text, message) => {
    const problems = after(text).problems.map((p) => `${p.message} ${p.remedy}`);
    expect(problems).toEqual([message]);
  });
  it('cannot be made of what the bike lacks, or the sheet does not speak of', () => {
    const bare = withFront({ 'bottom-out': 'none' }).sheet!;
    const why = (text: string) => applyChanges(bare, parseChange(text, OWN).changes).problems[0]!.message;
    expect(why('front.bottom-out+1')).toBe('This bike has no front bottom-out.');
    expect(why('front.lever+1')).toBe('Check first that there is a front lever.');
  });
});
