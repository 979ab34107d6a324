/** The phrases of the rules, cut into their words, as the build or an earlier start left them. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { compileWords, isCompiledWords, type CompiledWords } from '../../words/compiled-words.ts';
import { BUILT } from './built-in.ts';
import type { Io } from '../../host/io.ts';
import { readKept, writeKept, type Shelf } from '../kept.ts';

export const BUILT_WORDS = join(BUILT, 'base.words.json');
const WORDS: Shelf = { name: 'words', most: 8 };

/** The phrases of the rules, cut: of the build, kept, or cut now and kept. */
export async function keptWords(io: Io, rules: CompiledRules): Promise<CompiledWords> {
  const built = builtWords();
  if (built?.digest === rules.digest) return built.words;
  const kept = readKept(io, WORDS, rules.digest);
  if (isCompiledWords(kept, rules)) return kept;
  const words = compileWords(rules);
  await writeKept(io, WORDS, rules.digest, words);
  return words;
}

/** Read once a process, whatever asks for them; the date is that of the file. */
let before: { readonly built: BuiltWords; readonly mtimeMs: number } | undefined;

/** Those of the build; undefined where there are none: then they are cut anew. */
function builtWords(): BuiltWords | undefined {
  try {
    const { mtimeMs } = statSync(BUILT_WORDS);
    if (before?.mtimeMs !== mtimeMs)
      before = { built: JSON.parse(readFileSync(BUILT_WORDS, 'utf8')) as BuiltWords, mtimeMs };
    return before.built;
  } catch {
    return undefined;
  }
}

export interface BuiltWords {
  readonly digest: string;
  readonly words: CompiledWords;
}
