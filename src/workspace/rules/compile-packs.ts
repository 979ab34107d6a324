/** Reads and compiles rule packs; the only way in to yaml and zod for rules, so it is imported on a miss only. */
import { compile, type Compilation } from '../../rulebase/compile.ts';
import type { PackSource } from '../../rulebase/pack-layers.ts';
import type { RuleFileOf } from '../../rulebase/entries.ts';
import type { Problem } from '../../form/problem.ts';
import { readHeader, readRules } from './read-pack-file.ts';
import type { PackFolder } from './rule-files.ts';

/** Compiles packs in order. All problems of all files come back together. */
export function compilePacks(packs: readonly PackFolder[], digest: string): Compilation {
  const problems: Problem[] = [];
  const sources = packs.flatMap((pack): PackSource[] => {
    const header = readHeader(pack);
    problems.push(...header.problems);
    const files = pack.files
      .filter((file) => file !== 'pack.yaml')
      .flatMap((file): RuleFileOf[] => {
        const { parsed, value, problems: found } = readRules(pack, file);
        problems.push(...found);
        return value === undefined ? [] : [{ pack: header.value?.pack ?? pack.shown, parsed, rules: value }];
      });
    return header.value === undefined ? [] : [{ pack: header.value, packParsed: header.parsed, files }];
  });
  // Ids of a file that could not be read would only be reported as unknown everywhere else.
  if (problems.some((p) => p.severity === 'error')) return { checks: [], problems };
  return compile(sources, digest);
}
