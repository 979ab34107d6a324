/** Compiled packs of the user's own, kept by the digest of their files. */
import { COMPILED_FORMAT, type CompiledRules } from '../../rulebase/compiled.ts';
import { rulesFromText, rulesToText } from '../../rulebase/compiled-text.ts';
import type { Io } from '../../host/io.ts';
import { readKeptBytes, writeKeptBytes, type Shelf } from '../kept.ts';

/** Packs are edited and tried; the last few are enough. */
const RULES: Shelf = { name: 'rules', most: 8 };

/** @returns the compiled form of that digest; undefined when there is none to be believed */
export function readCache(io: Io, digest: string): CompiledRules | undefined {
  const bytes = readKeptBytes(io, RULES, digest);
  if (bytes === undefined) return undefined;
  try {
    const cut = bytes.indexOf(10);
    const rules = rulesFromText(bytes.toString('utf8', 0, cut), () => bytes.toString('utf8', cut + 1));
    return rules.format === COMPILED_FORMAT && rules.digest === digest ? rules : undefined;
  } catch {
    return undefined;
  }
}

export async function writeCache(io: Io, digest: string, rules: CompiledRules): Promise<void> {
  const { main, rare } = rulesToText(rules);
  await writeKeptBytes(io, RULES, digest, Buffer.from(`${main}\n${rare}`));
}
