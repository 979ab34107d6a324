/** Reads and compiles rule packs; the only way in to yaml and zod for rules, so it is imported on a miss only. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { compile, type Compilation, type PackSource } from '../../rulebase/compile.ts';
import type { RuleFileOf } from '../../rulebase/entries.ts';
import { parseYaml, type Parsed } from '../../form/parse.ts';
import type { Problem } from '../../form/problem.ts';
import { packFile, ruleFile } from '../../rulebase/schema.ts';
import { validate } from '../../form/validate.ts';
import type { PackFolder } from './rule-files.ts';

/** Compiles packs in order. All problems of all files come back together. */
export function compilePacks(packs: readonly PackFolder[], digest: string): Compilation {
  const problems: Problem[] = [];
  const sources = packs.flatMap((pack): PackSource[] => {
    const packParsed = read(pack, 'pack.yaml');
    const header = validate(packParsed, packFile);
    problems.push(...header.problems);
    const files = pack.files
      .filter((file) => file !== 'pack.yaml')
      .flatMap((file): RuleFileOf[] => {
        const parsed = read(pack, file);
        // A file of comments only is a file being started.
        if (parsed.data === null) return [];
        const { value, problems: found } = validate(parsed, ruleFile);
        problems.push(...found);
        return value === undefined ? [] : [{ pack: header.value?.pack ?? pack.shown, parsed, rules: value }];
      });
    return header.value === undefined ? [] : [{ pack: header.value, packParsed, files }];
  });
  // Ids of a file that could not be read would only be reported as unknown everywhere else.
  if (problems.some((p) => p.severity === 'error')) return { checks: [], problems };
  return compile(sources, digest);
}

function read(pack: PackFolder, file: string): Parsed {
  const shown = join(pack.shown, file).replaceAll('\\', '/');
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(join(pack.folder, file)));
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
  return parseYaml(text, shown);
}
