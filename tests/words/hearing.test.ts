/** What a text says, heard as a whole: overlapping readings are one, and what was tried is no sign. */
import { expect, it } from 'vitest';
import { buildHearing } from '../../src/words/hearing.ts';
import { baseWords } from '../support/base-rules.ts';
import { baseRules } from './base-pack.ts';

const hear = buildHearing(baseRules(), baseWords());

it('offers what overlapping words could mean once, under the longest of them', () => {
  const { readings } = hear('rear skips and hops over braking bumps');
  expect(readings).toHaveLength(1);
  const [one] = readings;
  expect(one).toMatchObject({ text: 'rear skips and hops over braking', end: 'rear' });
  const said = one!.candidates.map(({ question, answer }) => `${question} ${answer}`);
  expect(said).toEqual(expect.arrayContaining(['brake-rear skips', 'repeated-hits.trend@rear skips']));
  expect(new Set(said).size).toBe(said.length);
});

it('keeps apart what stands apart, and what is denied', () => {
  expect(hear('the fork dives, the rear kicks off jumps').readings.length).toBeGreaterThan(1);
  expect(hear('the fork never dives').readings.some(({ negated }) => negated)).toBe(true);
});

it('reads no answer out of the words of a change that was tried', () => {
  const { readings, tried } = hear('opened rear rebound two clicks, no better, put it back');
  expect(tried).toMatchObject([{ setting: 'rebound', end: 'rear', result: 'same', putBack: 'yes' }]);
  expect(readings).toEqual([]);
});

it('asks of both where a danger was said of either end, and of neither where it was trouble', () => {
  const said = (text: string, id: string) =>
    hear(text).readings.flatMap((r) => r.candidates.filter((c) => c.question === id).map((c) => c.answer));
  const both = 'Play in the headset. The tail rattles.';
  expect(said(both, 'safety.noise')).toEqual(['front', 'rear']);
  expect(said(both, 'trouble-end')).toEqual([]);
});
