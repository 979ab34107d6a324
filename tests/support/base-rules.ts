/** The base pack, compiled from its files once a worker, and shared: so it is frozen. */
import { compilePacks } from '../../src/workspace/rules/compile-packs.ts';
import { basePackFolder, findPack } from '../../src/workspace/rules/rule-files.ts';
import type { Check, CompiledRules } from '../../src/rulebase/compiled.ts';
import { frozen } from '../../src/form/frozen.ts';
import { problemLine } from '../../src/form/problem.ts';

interface BasePack {
  readonly rules: CompiledRules;
  readonly checks: readonly Check[];
}
let kept: BasePack | undefined;

export function baseRules(): BasePack {
  return (kept ??= frozen(compile()));
}

function compile(): BasePack {
  const folder = basePackFolder();
  const { rules, checks, problems } = compilePacks(
    [{ ...findPack(folder, folder), shown: 'rules/base' }],
    'test',
  );
  if (rules === undefined) throw new Error(problems.map(problemLine).join('\n'));
  return { rules, checks };
}
