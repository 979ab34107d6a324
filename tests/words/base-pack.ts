/** The built-in pack, compiled from its files as they stand now. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import { rulesOf } from '../support/compile-text.ts';

export function baseRules(): CompiledRules {
  const root = new URL('../../rules/base/', import.meta.url).pathname;
  const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter(
    (f) => f.endsWith('.yaml') && !f.endsWith('.checks.yaml'),
  );
  return rulesOf(Object.fromEntries(files.map((f) => [f, readFileSync(join(root, f), 'utf8')])));
}
