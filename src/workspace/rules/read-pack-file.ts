/**
 * One file of a pack, read and checked for its form. A process that reads the same text again, as `rules learn` does before and
 * after it wrote its pack, gets what it had: so that is frozen.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type * as z from 'zod';
import { frozen } from '../../form/plain-data.ts';
import { parseYaml, type Parsed } from '../../form/parse.ts';
import type { Problem } from '../../form/problem.ts';
import { validate } from '../../form/checked.ts';
import { packFile, type PackFile } from '../../rulebase/schema/pack.ts';
import { ruleFile, type RuleFile } from '../../rulebase/schema/rule-file.ts';
import type { PackFolder } from './rule-files.ts';

export interface PackFileRead<T> {
  readonly parsed: Parsed;
  /** undefined where it is not of that form, and for a file of comments only, which is one being started */
  readonly value?: T | undefined;
  readonly problems: readonly Problem[];
}

/** More texts than the built-in pack, a few others and their edited states have: what is older goes. */
const MOST_KEPT = 400;
const headers = new Map<string, PackFileRead<PackFile>>();
const rules = new Map<string, PackFileRead<RuleFile>>();

/** `pack.yaml` of a pack; all that is wrong with it comes back, nothing is thrown. */
export function readHeader(pack: PackFolder): PackFileRead<PackFile> {
  return read(pack, 'pack.yaml', packFile, headers);
}

/** Any other file of a pack; all that is wrong with it comes back, nothing is thrown. */
export function readRules(pack: PackFolder, file: string): PackFileRead<RuleFile> {
  return read(pack, file, ruleFile, rules);
}

function read<T>(
  pack: PackFolder,
  file: string,
  form: z.ZodType<T>,
  kept: Map<string, PackFileRead<T>>,
): PackFileRead<T> {
  const shown = join(pack.shown, file).replaceAll('\\', '/');
  const text = textOf(join(pack.folder, file), shown);
  if (typeof text !== 'string') return { parsed: text, problems: text.problems };
  const key = `${shown}\n${text}`;
  const before = kept.get(key);
  if (before !== undefined) return before;
  const parsed = parseYaml(text, shown);
  const made = frozen(
    parsed.data === null && file !== 'pack.yaml'
      ? { parsed, problems: [] }
      : { parsed, ...validate(parsed, form) },
  );
  if (kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value!);
  kept.set(key, made);
  return made;
}

/** @returns the text, or what stands for a file that cannot be read */
function textOf(path: string, shown: string): string | Parsed {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path));
  } catch (error) {
    const place = { file: shown, line: 0, col: 0 };
    const utf8 = error instanceof TypeError;
    const message = utf8
      ? 'This file is not UTF-8 text.'
      : `This file cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'}).`;
    const remedy = utf8 ? 'Save it as UTF-8.' : 'Check its permissions.';
    return {
      file: shown,
      data: undefined,
      problems: [{ ...place, code: 'unreadable', severity: 'error', message, remedy }],
      locate: () => place,
    };
  }
}
