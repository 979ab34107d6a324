/** What the build worked out of the built-in rules ahead of all cases. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fromBytes, keepNothing, type Keep } from '../diagnosis/keep.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import { BUILT } from './built-in.ts';

export const BUILT_NUMBERS = join(BUILT, 'base.numbers');

/** Nothing is kept of edited rules and of further packs; that only costs time. */
export function keptNumbers(rules: CompiledRules): Keep {
  try {
    return fromBytes(rules.digest, readFileSync(BUILT_NUMBERS)) ?? keepNothing;
  } catch {
    return keepNothing;
  }
}
