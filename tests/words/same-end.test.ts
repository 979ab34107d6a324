/** Which end it is at, from the signs that were told of it. */
import { describe, expect, it } from 'vitest';
import { buildHearing } from '../../src/words/hearing.ts';
import type { Reading } from '../../src/words/matcher.ts';
import { whichEndOf } from '../../src/words/follows/same-end.ts';
import { baseRules, baseWords } from '../support/base-rules.ts';

const { rules } = baseRules();
const adds = whichEndOf(rules.questions);
const reading = (said: string, more: Partial<Reading> = {}): Reading => ({
  phrase: said,
  text: said,
  position: 0,
  negated: false,
  ambiguous: false,
  means: [],
  separates: [],
  candidates: [{ question: said.split('=')[0]!, answer: said.split('=')[1]!, confirmed: false }],
  score: 1,
  ...more,
});
const offered = (...readings: Reading[]): string =>
  adds(readings)
    .map((r) => r.candidates.map((c) => `${c.question}=${c.answer}`).join(' '))
    .join(', ');

describe('the end', () => {
  it('is that of a sign that was told of it', () => {
    expect(offered(reading('climb=wanders', { end: 'front' }))).toBe('climb=wanders trouble-end=front');
  });

  it('is told once, by the first of several', () => {
    expect(offered(reading('lip=rear-over', { end: 'rear' }), reading('follows=late', { end: 'rear' }))).toBe(
      'lip=rear-over trouble-end=rear, follows=late',
    );
  });

  it.each([
    [
      'signs of two ends',
      [reading('lip=rear-over', { end: 'rear' }), reading('climb=wanders', { end: 'front' })],
    ],
    ['a sign of no end', [reading('lip=rear-over')]],
    ['a sign that is denied', [reading('lip=rear-over', { end: 'rear', negated: true })]],
    ['what is as it should be', [reading('climb=steers', { end: 'front' })]],
    ['a circumstance', [reading('recent-change=part', { end: 'front' })]],
    [
      'a sign beside words that say which end',
      [reading('lip=rear-over', { end: 'rear' }), reading('trouble-end=both')],
    ],
  ])('is not taken from %s', (_, readings) => {
    expect(offered(...readings)).toBe(readings.map((r) => r.phrase).join(', '));
  });

  it('of a find is where it was told to be', () => {
    const hear = buildHearing(rules, baseWords());
    const told = (said: string): string[] =>
      hear(said)
        .readings.flatMap((r) => r.candidates)
        .filter(({ question }) => question === 'safety.noise')
        .map(({ answer }) => answer);
    expect(told('My fork goes down and does not come back up')).toEqual(['front']);
    expect(told('There is a hairline crack in the frame')).toEqual([]);
  });
});
