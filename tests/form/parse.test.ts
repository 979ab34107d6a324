import { describe, expect, it } from 'vitest';
import { parseYaml } from '../../src/form/parse.ts';

describe('keys that stand twice', () => {
  it.each([
    ['a: 1\nb: 2\na: 3\n', ['3:1']],
    ['x:\n  - { k: 1, k: 2 }\n  - { k: 1 }\n', ['2:13']],
    ['a: 1\n"a": 2\n1: x\n"1": y\n', ['2:1']],
    ['a: &x { k: 1 }\nb: *x\n', []],
  ])('are told each at its place: %j', (text, places) => {
    const { problems } = parseYaml(text, 'f');
    expect(problems.map(({ line, col }) => `${line}:${col}`)).toEqual(places);
    expect(problems.every(({ code }) => code === 'duplicate-key')).toBe(true);
  });
});
