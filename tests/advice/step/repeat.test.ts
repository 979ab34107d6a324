/** A step says how it goes on: toward a figure where one is known, and always where it stops. */
import { describe, expect, it } from 'vitest';
import { repeatWords } from '../../../src/advice/step/repeat.ts';
import type { Change } from '../../../src/bike/change.ts';
import { readSheet } from '../../../src/bike/form/read.ts';
import { withValue } from '../../bike/example.ts';
import { baseRules } from '../../support/base-rules.ts';

const { rules } = baseRules();
const of = (id: string) => rules.adjustments.find((a) => a.id === id)!;
const CLOSE = of('rear.rebound.low.close');
const turn = (by: number): Change => ({ setting: 'rear.rebound.low', by, unit: 'clicks' });
const sheet = (low: object) => readSheet(withValue('rear.rebound', { low })).sheet!;
const said = (low: object, by: number) =>
  repeatWords(by < 0 ? CLOSE : of('rear.rebound.low.open'), turn(by), {
    rules,
    bike: sheet(low),
    known: undefined,
    tried: [],
  });
const answered = (adjustment: string, step: Change, answers: Readonly<Record<string, string>>) =>
  repeatWords(of(adjustment), step, {
    rules,
    bike: undefined,
    known: { answers: new Map(Object.entries(answers)), bike: () => undefined },
    tried: [],
  });

describe('a counted knob', () => {
  it.each([
    [{ clicks: 12, now: 12 }, -3, /toward the middle \(6 from closed\).*no further.*stop when it packs down/],
    [{ clicks: 12, now: 1 }, 3, /toward the middle \(6 from closed\).*stop when it bounces/],
    [{ clicks: 12, now: 11, maker: 5 }, -3, /toward the manufacturer's 5 from closed.*no further/],
    [{ clicks: 12, now: 8 }, -2, /better but not right yet.*stop when it packs down/],
    [{ clicks: 12, now: 3, maker: 5 }, -2, /better but not right yet/],
    [{ clicks: 12, near: 'open' }, -2, /toward the manufacturer's figure or the middle/],
    [{ clicks: 12, near: 'closed' }, -2, /better but not right yet/],
  ])('%j by %i', (low, by, words) => {
    expect(said(low, by)).toMatch(words);
  });

  it.each([
    ['at the maker’s figure', { clicks: 12, now: 8, maker: 5 }, -3],
    ['within what is near enough to it', { clicks: 12, now: 7, maker: 5 }, -1],
    ['at its stop', { clicks: 12, now: 2 }, -2],
  ] as const)('asks for no repeat of a step that ends %s', (_, low, by) => {
    expect(said(low, by)).toBeUndefined();
  });
});

describe('a knob that nobody counted', () => {
  it.each([
    ['front.rebound.low.close', -2, { 'knob-place@front': 'open' }],
    ['front.rebound.low.close', -2, { 'knob-place@front': 'faster' }],
    ['rear.rebound.low.open', 2, { 'knob-place@rear': 'closed' }],
    ['rear.rebound.high.open', 2, { 'knob-place-high@rear': 'closed' }],
    ['front.compression.low.open', 2, { 'comp-place@front': 'closed' }],
    ['rear.compression.high.close', -2, { 'comp-place-high@rear': 'open' }],
  ])('%s goes toward the middle after %j', (id, by, answers) => {
    const { setting } = of(id).change!;
    const words = answered(id, { setting, by, unit: 'clicks' }, answers);
    expect(words).toMatch(/toward the manufacturer's figure or the middle of its clicks.*stop when/);
    // The place at the other end, or at none, says nothing of how far.
    expect(answered(id, { setting, by, unit: 'clicks' }, {})).toMatch(/^better but not right yet.*stop when/);
  });
});

describe('a knob that was turned before and left there', () => {
  const opened = (by: number | undefined, putBack: string, setting = 'rear.rebound.low') =>
    repeatWords(CLOSE, turn(-2), {
      rules,
      bike: undefined,
      known: undefined,
      tried: [
        {
          tried: { putBack, ...(by === undefined ? {} : { by }) },
          changes: [{ setting, by: by ?? 2, unit: 'clicks' }],
        },
      ],
    });
  it('goes back to where it stood', () => {
    expect(opened(5, 'no')).toMatch(
      /toward where it stood before the change \(5 clicks from here\).*no further/,
    );
  });
  it.each([
    ['it is back already', opened(5, 'yes')],
    ['nobody knows how far it was', opened(undefined, 'no')],
    ['the step goes as far', opened(2, 'no')],
    ['it was another knob', opened(5, 'no', 'front.rebound.low')],
    ['it was turned this way', opened(-5, 'no')],
  ])('is told no such place where %s', (_, words) => {
    expect(words).toMatch(/^better but not right yet/);
  });
});

it.each([
  ['front.tyre.softer', -2, /figure for your weight.*about 20 psi .1\.4 bar. for 60 kg.*stop when it folds/],
  ['rear.tyre.harder', 2, /figure for your weight.*about 23 psi .1\.6 bar. for 60 kg.*stop when it pings/],
  ['front.spring.softer', -4, /usually 15 to 20 %.*minimum pressure/],
  ['rear.spring.firmer', 10, /usually 25 to 30 %.*maximum pressure/],
])('%s ends at a figure, never at what is usual for the rider', (id, by, words) => {
  const said = answered(id, { setting: of(id).change!.setting, by, unit: 'psi' }, {});
  expect(said).toMatch(words);
  expect(said).not.toMatch(/your usual/);
});

it('gives the tyres of one end the figures of both', () => {
  const both = rules.adjustments.find((a) => a.id === 'front.tyre.softer')!.plain;
  for (const end of ['front', 'rear'])
    for (const pair of of(`${end}.tyre.softer`).repeat!.until.matchAll(/(\d+)(?: psi)? \((\d\.\d)/g))
      expect(both).toMatch(new RegExp(`\\b${pair[1]}(?: psi)? \\(${pair[2]}`));
});

it('holds every click, turn and pressure to a test and a limit', () => {
  const without = rules.adjustments
    .filter(({ kind }) => ['click', 'pressure', 'preload', 'tyre'].includes(kind))
    .filter(({ repeat }) => repeat === undefined);
  expect(without.map(({ id }) => id)).toEqual([]);
});

it('never holds a step that is to be repeated to what was advised', () => {
  for (const { id, text } of rules.cautions) expect(text, id).not.toMatch(/no further than advised/);
});
