import { describe, expect, it } from 'vitest';
import { atMost, dottedLine, inOrder, pathLine, type PathProblem } from '../../src/form/problem.ts';

const many = (count: number, from = 0): PathProblem[] =>
  Array.from({ length: count }, (_, i) => ({
    path: [from + i],
    severity: 'error',
    message: `number ${from + i}.`,
    remedy: '',
  }));

describe('more problems than anyone reads', () => {
  it.each([
    [200, 0, 200, 'number 199.'],
    [201, 0, 201, '1 more problem is not listed.'],
    [3, 2, 4, '2 more problems are not listed.'],
    [1500, 0, 201, '1300 more problems are not listed.'],
  ])('of %i, and %i besides, are %i lines, the last: %s', (listed, unlisted, lines, last) => {
    const told = atMost(many(listed), unlisted);
    expect(told).toHaveLength(lines);
    expect(told.at(-1)!.message).toBe(last);
  });

  it('are counted right where lists that were cut are put together and cut again', () => {
    const told = atMost([...atMost(many(900)), ...atMost(many(300, 900)), ...many(5, 1200)]);
    expect(told).toEqual(atMost([...many(200), ...many(1005, 900)]));
    expect(atMost(told)).toEqual(told);
    expect(told.at(-1)!.message).toBe('1005 more problems are not listed.');
  });

  it('are counted below those that are told', () => {
    const locate = ([line = 0]: PathProblem['path']) => ({ line: 1000 - Number(line), col: 1 });
    const messages = inOrder(atMost(many(300)), locate).map(({ message }) => message);
    expect(messages.slice(0, 2)).toEqual(['number 199.', 'number 198.']);
    expect(messages.at(-1)).toBe('100 more problems are not listed.');
  });
});

describe('a problem without a place in a file', () => {
  it.each([
    [['kind'], undefined, 'kind: found "x".', 'kind: found "x".'],
    [['front', 'travel'], undefined, 'front › travel is 900.', 'front: travel is 900.'],
    [['front'], 'trvael', 'front: trvael is not known here.', 'front: trvael is not known here.'],
    [['list', 0, 'size'], undefined, 'list › entry 1 › size: found 0.', 'list.0.size: found 0.'],
    [['front', 'low', 'now'], undefined, 'front › low: now is 60.', 'front.low: now is 60.'],
    [['kind'], undefined, 'kind of bike is unknown.', 'kind: kind of bike is unknown.'],
    [[], undefined, 'A case: id is missing.', 'A case: id is missing.'],
  ] as const)('says its path once: %j', (path, key, message, line) => {
    const problem = {
      path,
      ...(key === undefined ? {} : { key }),
      severity: 'error',
      message,
      remedy: '',
    } as const;
    expect(dottedLine(problem)).toBe(line);
    const steps = line.startsWith('A case')
      ? line
      : line.replace(/^[^:]*/, (dotted) => dotted.replaceAll('.', ' › ').replace('› 0 ›', '› entry 1 ›'));
    expect(pathLine('x.ndjson', problem)).toBe(`x.ndjson: ${steps}`);
  });
});
