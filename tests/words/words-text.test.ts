/** What was cut of the phrases is found again in its text, and nothing else is. */
import { expect, it } from 'vitest';
import { madeOfEach, slotsIn, thingOf } from '../../src/words/compiled-words.ts';
import { compileWords, wordsOf, wordsToText } from '../../src/words/words-text.ts';
import { baseRules, baseWords } from '../support/base-rules.ts';

const { rules } = baseRules();
const words = baseWords();

it('has every phrase, its ways in their order, and every meaning', () => {
  expect(words.phrases.count).toBe(rules.words.length);
  rules.words.forEach((phrase, i) => {
    expect(words.phrases.at(i)).toEqual(phrase);
    expect(words.says.starts[i + 1]! - words.says.starts[i]!).toBe(phrase.says.length);
  });
  expect(words.meanings.map(({ id }) => id)).toEqual(rules.concepts.map(({ id }) => id));
});

it('finds for every word, and every concept, the ways that hold it and the slot there', () => {
  const slots = madeOfEach(words.says, slotsIn);
  const held = new Map<string, number>();
  for (let id = 0; id < words.says.starts.at(-1)!; id++) {
    expect(words.slotsOf(id)).toBe(slots(id).length);
    for (const slot of slots(id)) for (const key of slot) held.set(key, (held.get(key) ?? 0) + 1);
  }
  expect(held.size).toBeGreaterThan(1000);
  for (const [key, count] of held) {
    const fills = words.fills(key);
    expect(fills.length).toBe(2 * count);
    for (let i = 0; i < fills.length; i += 2)
      expect(slots(fills[i]!)[Math.log2(fills[i + 1]!)]!.has(key)).toBe(true);
  }
});

it('finds no word in a part of another, in a number, or in what every object has', () => {
  const own = compileWords({
    ...rules,
    words: [{ ...rules.words[0]!, says: ['brakes squeal', 'brake'] }],
    concepts: [],
  });
  expect(own.fills('brake')).toEqual([0, 1, 1, 1]);
  for (const key of ['rake', 'brak', '', '1', '0,1', 'constructor']) {
    expect(own.fills(key)).toEqual([]);
    expect(own.begins(key)).toEqual([]);
    expect(own.word(key)).toBeUndefined();
  }
  expect(own.stems()).toEqual(['brake', 'squeal']);
  expect(own.word('brake')).toBe('brake');
  expect([0, 1].map((id) => thingOf(own.says, id))).toEqual([0, 0]);
});

it('is not taken from a text of which lines are missing', () => {
  const text = wordsToText({ ...rules, words: rules.words.slice(0, 3), concepts: [] });
  expect(() => wordsOf(text)).not.toThrow();
  expect(() => wordsOf(text.slice(0, text.lastIndexOf('\n')))).toThrow(SyntaxError);
  expect(() => wordsOf('')).toThrow(SyntaxError);
});
