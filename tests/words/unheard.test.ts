import { expect, it } from 'vitest';
import { quotedList } from '../../src/report/quoted-list.ts';
import { buildHearing } from '../../src/words/hearing.ts';
import { unheard } from '../../src/words/unheard.ts';
import { baseWords } from '../support/base-rules.ts';
import { baseRules } from './base-pack.ts';

const rules = baseRules();
const hear = buildHearing(rules, baseWords());

it.each([
  ['the front packs down and my socks itch', ['my socks itch']],
  ['The front packs down. My cat is ill, it never eats', ['My cat is ill', 'it never eats']],
  ['the front packs down through the roots', []],
  ['today, the front packs down', []],
  ['two clicks more rebound at the rear made it worse and the sun was out', ['the sun was out']],
])('nothing is heard of a part of: %s', (said, parts) => {
  expect(unheard(said, hear(said), rules)).toEqual(parts);
});

it('of many parts names a few, and says how many more', () => {
  expect(quotedList(['a b', 'c d'])).toBe('"a b", "c d"');
  expect(quotedList(['a b', 'c d', 'e f', 'g h', 'i j'])).toBe('"a b", "c d", "e f" and 2 more');
});

it('takes words for heard that were joined to others that overlap them', () => {
  const text = 'The fork feels harsh and my hands hurt on long descents';
  expect(unheard(text, hear(text), rules)).toEqual([]);
});
