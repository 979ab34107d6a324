/** The phrases of the rules, cut into their words, as the build or an earlier start left them. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { CompiledWords } from '../../words/compiled-words.ts';
import { wordsOf, wordsToText } from '../../words/words-text.ts';
import { BUILT } from './built-in.ts';
import type { Io } from '../../host/io.ts';
import { readKeptBytes, writeKeptBytes, type Shelf } from '../kept.ts';

export const BUILT_WORDS = join(BUILT, 'base.words');
const WORDS: Shelf = { name: 'words', most: 8 };

/** The phrases of the rules, cut: of the build, kept, or cut now and kept. */
export async function keptWords(io: Io, rules: CompiledRules): Promise<CompiledWords> {
  const built = builtWords();
  if (built?.digest === rules.digest) return built.words;
  const kept = readWords(io, rules.digest);
  if (kept !== undefined) return kept;
  const text = wordsToText(rules);
  await writeKeptBytes(io, WORDS, rules.digest, Buffer.from(text));
  return wordsOf(text);
}

function readWords(io: Io, digest: string): CompiledWords | undefined {
  try {
    const text = readKeptBytes(io, WORDS, digest)?.toString('utf8');
    return text === undefined ? undefined : wordsOf(text);
  } catch {
    return undefined;
  }
}

/** Those of the build: the digest of the rules that they are of in a line of its own, then the words. */
export const builtWordsText = (digest: string, text: string): string => `${digest}\n${text}`;

interface Built {
  readonly digest: string;
  readonly words: CompiledWords;
  readonly mtimeMs: number;
}

/** Read once a process, whatever asks for them; the date is that of the file. */
let before: Built | undefined;

/** Undefined where there are none: then they are cut anew. */
function builtWords(): Built | undefined {
  try {
    const { mtimeMs } = statSync(BUILT_WORDS);
    if (before?.mtimeMs === mtimeMs) return before;
    const text = readFileSync(BUILT_WORDS, 'utf8');
    const cut = text.indexOf('\n');
    return (before = { digest: text.slice(0, cut), words: wordsOf(text.slice(cut + 1)), mtimeMs });
  } catch {
    return undefined;
  }
}
