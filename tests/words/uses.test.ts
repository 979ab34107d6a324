/** What the phrases of a pack use a word for. */
import { describe, expect, it } from 'vitest';
import type { Phrase } from '../../src/rulebase/compiled-phrases.ts';
import { buildUses } from '../../src/words/choice/uses.ts';
import { compileWords } from '../../src/words/words-text.ts';

const phrase = (id: string, says: string[], ...questions: string[]): Phrase => ({
  id,
  says,
  ambiguous: false,
  means: [],
  separates: [],
  couldBe: questions.map((question) => ({ question, answer: 'yes' })),
  at: id,
});
const PHRASES = [
  phrase('squeal', ['brakes squeal', 'squeal', 'squeal after squeal'], 'noise'),
  phrase('weak', ['brakes weak'], 'brakes@{end}'),
  phrase('soft', ['weak spring'], 'spring@front', 'spring@rear'),
];
const uses = buildUses(compileWords({ words: PHRASES, concepts: [], endNames: [] }));
const useOf = (key: string): unknown => {
  const { sayings, questions } = uses.of(key);
  return { sayings, questions: Object.fromEntries(questions) };
};

describe('what a word is used for', () => {
  it.each([
    ['a word of two questions', 'brake', { sayings: 2, questions: { noise: 1, brakes: 1 } }],
    ['a saying that holds it twice, once', 'squeal', { sayings: 3, questions: { noise: 3 } }],
    ['both ends of a question, once', 'spring', { sayings: 1, questions: { spring: 1 } }],
    ['a word of no phrase', 'purple', { sayings: 0, questions: {} }],
    ['a word that every object has', 'constructor', { sayings: 0, questions: {} }],
  ])('counts %s', (_, key, use) => {
    expect(useOf(key)).toEqual(use);
  });

  it('counts the questions of all phrases', () => {
    expect(uses.questions).toBe(3);
  });
});
