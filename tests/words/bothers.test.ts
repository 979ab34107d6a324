/** What bothers most, derived from the signs that own words tell. The pairs of sign and complaint are common practice, no source. */
import { describe, expect, it } from 'vitest';
import { whatBothers } from '../../src/words/follows/bothers.ts';
import type { Reading } from '../../src/words/matcher.ts';
import { buildHearing } from '../../src/words/hearing.ts';
import { baseRules, baseWords } from '../support/base-rules.ts';

const opening = (id: string, signs: Record<string, string[]>) => ({
  id,
  say: id,
  plain: id,
  topics: [id],
  answers: { bothers: id },
  signs,
});
const adds = whatBothers([
  opening('jumps', { lip: ['over', 'dead'], landing: ['hard'] }),
  opening('corners', { berm: ['sinks'] }),
]);
const reading = (position: number, said: string, more: Partial<Reading> = {}): Reading => ({
  phrase: said,
  text: said,
  position,
  negated: false,
  ambiguous: false,
  means: [],
  separates: [],
  candidates: [{ question: said.split('=')[0]!, answer: said.split('=')[1]!, confirmed: false }],
  score: 1,
  ...more,
});
const offered = (...readings: Reading[]): string[] =>
  adds(readings).map((r) => r.candidates.map((c) => `${c.question}=${c.answer}`).join(' '));

describe('what bothers most', () => {
  it('is told by a sign of it, at whatever end', () => {
    expect(offered(reading(0, 'berm@rear=sinks'))).toEqual(['berm@rear=sinks bothers=corners']);
  });

  it('is what most of the signs are about', () => {
    expect(
      offered(reading(0, 'berm@rear=sinks'), reading(20, 'lip=over'), reading(30, 'landing@either=hard')),
    ).toEqual(['berm@rear=sinks', 'lip=over bothers=jumps', 'landing@either=hard']);
  });

  it('is what was told first where as much was told of two', () => {
    expect(offered(reading(0, 'berm@rear=sinks'), reading(20, 'lip=over'))[0]).toContain('bothers=corners');
  });

  it.each([
    ['another answer of that question', [reading(0, 'berm@rear=holds')]],
    ['a sign that is denied', [reading(0, 'lip=over', { negated: true })]],
    ['a doubtful reading', [reading(0, 'lip=over', { sure: 0.6 })]],
    ['words that name what bothers', [reading(0, 'lip=over'), reading(9, 'bothers=corners')]],
  ])('is not derived from %s', (_, readings) => {
    expect(offered(...readings)).toEqual(readings.map((r) => r.phrase));
  });

  it.each([
    ['The rear bucks me over the bars off every lip', 'air'],
    ['The shock whooshes on the way back', 'noise'],
    ['The front wanders up every climb', 'climbing'],
  ])('of "%s" is %s', (said, complaint) => {
    const hear = buildHearing(baseRules().rules, baseWords());
    const told = hear(said).readings.flatMap((r) => r.candidates);
    expect(told.filter((c) => c.question === 'complaint').map((c) => c.answer)).toEqual([complaint]);
  });
});
