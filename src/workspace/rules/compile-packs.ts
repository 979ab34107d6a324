/** Reads and compiles rule packs; the only way in to yaml and zod for rules, so it is imported on a miss only. */
import { compile, type Compilation } from '../../rulebase/compile.ts';
import type { PackSource } from '../../rulebase/pack-layers.ts';
import type { RuleFileOf } from '../../rulebase/entries.ts';
import { sortProblems, type Problem } from '../../form/problem.ts';
import { soundPart, surelyUnknown } from '../../rulebase/sound-part.ts';
import { readHeader, readRules } from './read-pack-file.ts';
import type { PackFolder } from './rule-files.ts';

/** Compiles packs in order. All problems of all files come back together. */
export function compilePacks(packs: readonly PackFolder[], digest: string): Compilation {
  const problems: Problem[] = [];
  const lost: string[] = [];
  let readable = true;
  const sources = packs.flatMap((pack): PackSource[] => {
    const header = readHeader(pack);
    problems.push(...header.problems);
    const files = pack.files
      .filter((file) => file !== 'pack.yaml')
      .flatMap((file): RuleFileOf[] => {
        const { parsed, value, problems: found } = readRules(pack, file);
        problems.push(...found);
        const name = header.value?.pack ?? pack.shown;
        if (value !== undefined) return [{ pack: name, parsed, rules: value }];
        if (parsed.data === undefined) readable = false;
        if (found.length === 0 || !readable) return [];
        const sound = soundPart(parsed);
        lost.push(...sound.lost);
        return [{ pack: name, parsed: sound.parsed, rules: sound.rules }];
      });
    if (header.value === undefined) readable = false;
    return header.value === undefined ? [] : [{ pack: header.value, packParsed: header.parsed, files }];
  });
  if (problems.every((p) => p.severity !== 'error')) return compile(sources, digest);
  // Ids of a file that could not be read would only be reported as unknown everywhere else.
  if (!readable) return { checks: [], problems };
  const { problems: found } = compile(sources, digest);
  return { checks: [], problems: sortProblems([...problems, ...surelyUnknown(found, lost, problems)]) };
}
