import { describe, expect, it } from 'vitest';
import { digit } from '../../src/console/digit.ts';

/** What a row of digits comes to: the choice, or what is still open. */
function typed(digits: string, count: number): number | string {
  let before = '';
  for (const next of digits) {
    const { chosen, typed: begun } = digit(before, next, count);
    if (chosen !== undefined) return chosen + 1;
    before = begun;
  }
  return before;
}

describe('digits at a prompt', () => {
  it.each([
    ['answers at once when no longer number begins so', '3', 4, 3],
    ['waits where a longer number may begin so', '1', 12, '1'],
    ['takes the second digit', '12', 12, 12],
    ['answers at once with the others of a long list', '2', 12, 2],
    ['lets the second digit speak for itself when both make no choice', '13', 12, 3],
    ['keeps waiting for a second first digit', '11', 10, '1'],
    ['knows ten', '10', 10, 10],
    ['has no choice nought', '0', 4, ''],
    ['has no choice beyond the last', '7', 4, ''],
  ])('%s', (_, digits, count, expected) => expect(typed(digits, count)).toBe(expected));
});
