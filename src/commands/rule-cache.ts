/** Compiled packs of the user's own, kept by the digest of their files. */
import { COMPILED_FORMAT, type CompiledRules } from '../rulebase/compiled.ts';
import type { Io } from './io.ts';
import { readKept, writeKept, type Shelf } from './kept.ts';

/** Packs are edited and tried; the last few are enough. */
const RULES: Shelf = { name: 'rules', most: 8 };

/** @returns the compiled form of that digest; undefined when there is none to be believed */
export function readCache(io: Io, digest: string): CompiledRules | undefined {
  const rules = readKept(io, RULES, digest) as CompiledRules | undefined;
  return rules?.format === COMPILED_FORMAT && rules.digest === digest ? rules : undefined;
}

export async function writeCache(io: Io, digest: string, rules: CompiledRules): Promise<void> {
  await writeKept(io, RULES, digest, rules);
}
