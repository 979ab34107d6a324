import { describe, expect, it } from 'vitest';
import { editDistance, nearest } from '../../src/form/suggest.ts';

describe('the distance of two words', () => {
  it.each([
    ['', 'abc', 3],
    ['abc', '', 3],
    ['kitten', 'sitting', 3],
    ['ca', 'ac', 1],
    ['abcd', 'acbd', 1],
    ['a'.repeat(300), 'a'.repeat(299), 1],
  ])('%s → %s is %i', (a, b, distance) => expect(editDistance(a, b)).toBe(distance));
  it('is given up once it must be more than asked for', () => {
    expect(editDistance('kitten', 'sitting', 3)).toBe(3);
    expect(editDistance('abcdefgh', 'zzzzzzzz', 2)).toBeGreaterThan(2);
    expect(nearest('hit-patern', ['sag', 'hit-pattern', 'row'])).toBe('hit-pattern');
  });
});
