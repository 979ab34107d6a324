import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ALONE, PROMPTS, SLOW } from './kinds.ts';

it('names only test files that are there, each once', () => {
  const all = [...ALONE, ...PROMPTS, ...SLOW];
  expect(all.filter((file) => !existsSync(join(import.meta.dirname, '..', file)))).toEqual([]);
  expect(new Set(all).size).toBe(all.length);
});
