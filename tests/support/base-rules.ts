/** The base pack, compiled from its files once a test file. */
import { compilePacks } from '../../src/commands/compile-packs.ts';
import { basePackFolder, findPack } from '../../src/commands/rule-files.ts';
import type { Check, CompiledRules } from '../../src/rulebase/compiled.ts';
import { problemLine } from '../../src/rulebase/problem.ts';

export function baseRules(): { rules: CompiledRules; checks: readonly Check[] } {
  const folder = basePackFolder();
  const { rules, checks, problems } = compilePacks(
    [{ ...findPack(folder, folder), shown: 'rules/base' }],
    'test',
  );
  if (rules === undefined) throw new Error(problems.map(problemLine).join('\n'));
  return { rules, checks };
}
