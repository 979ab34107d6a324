import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { logHome } from '../../src/logbook/home.ts';

test('EARSHOT_HOME wins, and may be relative', () => {
  expect(logHome({ EARSHOT_HOME: '/somewhere/else' })).toBe(resolve('/somewhere/else'));
  expect(logHome({ EARSHOT_HOME: 'here' })).toBe(resolve('here'));
});

test('without it, or with an empty one, the platform decides', () => {
  expect(logHome({})).toMatch(/earshot/);
  expect(logHome({ EARSHOT_HOME: ' ' })).toBe(logHome({}));
});
