import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildMatcher } from '../../src/words/matcher.ts';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import { rulesOf } from '../support/compile-text.ts';
import { baseMatcher } from '../support/base-rules.ts';
import { baseRules } from './base-pack.ts';
import { PHRASES } from './fixture.ts';
import { anyText } from '../support/any-text.ts';

const rules = rulesOf({ 'a.yaml': PHRASES });
const matcher = buildMatcher(rules);
const base = baseRules();
const ofBase = baseMatcher();
const answersOf = ({ questions }: Pick<CompiledRules, 'questions'>): Set<string> =>
  new Set(questions.flatMap((q) => q.answers.map((a) => `${q.id}=${a.id}`)));

/** Words of the pack, words of the language around them, signs, and anything at all. */
const text = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        ...'harsh kick kicks sits low front rear fork back both and or not never no but then , . the level come up'.split(
          ' ',
        ),
      ),
      anyText({ maxLength: 12 }),
      fc.string({ maxLength: 8 }),
    ),
    { maxLength: 40 },
  )
  .map((parts) => parts.join(' '));

describe('odd text', () => {
  it.each([
    ['a small pack', matcher, answersOf(rules)],
    ['the built-in pack', ofBase, answersOf(base)],
  ])('never throws, and offers only what exists in %s, unconfirmed', (_, matcher, answers) => {
    fc.assert(
      fc.property(text, (said) => {
        for (const reading of matcher.match(said)) {
          expect(reading.score).toBeGreaterThan(0);
          expect(reading.score).toBeLessThanOrEqual(1);
          expect(reading.position).toBeLessThan(said.length);
          for (const c of reading.candidates) {
            expect(answers).toContain(`${c.question}=${c.answer}`);
            expect(c.confirmed).toBe(false);
          }
        }
      }),
      { numRuns: 500 },
    );
  });

  it('gives the same readings for the same text, whatever was read before', () => {
    fc.assert(
      fc.property(text, text, (said, other) => {
        const first = matcher.match(said);
        matcher.match(other);
        expect(buildMatcher(rules).match(said)).toEqual(first);
      }),
      { numRuns: 100 },
    );
  });

  it('reads in the order of the text', () => {
    fc.assert(
      fc.property(text, (said) => {
        const places = matcher.match(said).map((r) => r.position);
        expect(places).toEqual([...places].sort((a, b) => a - b));
      }),
    );
  });

  it('never offers the sign of a phrase that was denied', () => {
    let denied = 0;
    fc.assert(
      fc.property(fc.constantFrom('no', 'never', "doesn't", 'without'), text, (not, said) => {
        for (const r of matcher.match(`${said}. The rear ${not} kicks`).filter((r) => r.negated)) {
          denied++;
          expect(r.candidates.map((c) => c.answer)).not.toContain('kicks');
        }
      }),
    );
    expect(denied).toBeGreaterThan(50);
  });

  it('keeps control characters of the text out of the words it hands on', () => {
    const [reading] = matcher.match('sits \u001b\u0007 low\u0000');
    expect(reading).toMatchObject({ phrase: 'sits-low' });
    expect(reading!.text).not.toMatch(/\p{Cc}/u);
  });

  it.each([
    ['one word', 'k'.repeat(10_000)],
    ['one word of the pack again and again', 'harsh '.repeat(1_667)],
    ['no full stop', 'the front sits low and kicks on a single root not harsh '.repeat(180)],
    ['nothing but commas', ','.repeat(10_000)],
    ['ten thousand slips', Array.from({ length: 1_400 }, (_, i) => `kik${i.toString(26)}d`).join(' ')],
    ['combining marks', `a${'\u0301'.repeat(9_999)}`],
    ['half a surrogate pair', '\ud83d harsh \ude00 '.repeat(1_000)],
  ])('reads 10,000 characters of %s', (_, said) => {
    expect(said.length).toBeGreaterThan(8_000);
    const readings = ofBase.match(said);
    expect(readings.length).toBeLessThan(60);
    for (const r of readings) expect(r.text.length).toBeLessThanOrEqual(80);
  });
});
