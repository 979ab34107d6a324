import { describe, expect, it } from 'vitest';
import { parseYaml } from '../../src/form/parse.ts';

describe('what is wrong with the YAML itself', () => {
  it.each([
    ['a: 1\nb\nc: 2\n', '2:1', 'A colon, a comma, a quote or a bracket is missing here.'],
    ['a: 1\n"b\n c": 2\n', '2:1', 'A key and its colon must be on one line.'],
    ['a: b: c\n', '1:4', 'There is a second colon on this line.'],
    ['a: [1, 2\nb: 1\n', '2:1', 'This line begins in the wrong column.'],
    ['a: "x\n', '2:1', 'A colon, a comma, a quote or a bracket is missing here.'],
    ['a:\n\tb: 1\n', '2:1', 'This line begins with a tab.'],
    ['a: @x\n', '1:4', 'A text cannot begin with this character.'],
    ['a: *x\n', '1:4', 'A text cannot begin with * or &.'],
  ])('is said plainly, with its place: %j', (text, place, message) => {
    const [first] = parseYaml(text, 'f').problems;
    expect([`${first!.line}:${first!.col}`, first!.message]).toEqual([place, message]);
    expect(first!.remedy).toMatch(/[.\]]$/);
  });
});

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
