/** The compiled rule base: built in, cached, or compiled now. An edited rule takes effect at once. */
import { readFileSync, statSync } from 'node:fs';
import { COMPILED_FORMAT, type CompiledRules } from '../../rulebase/compiled.ts';
import { rulesFromText } from '../../rulebase/compiled-text.ts';
import { problemLine } from '../../form/problem.ts';
import { BUILT_RARE, BUILT_RULES, digestNow, readStamp } from './built-in.ts';
import { EXIT, Refusal, type Io } from '../../host/io.ts';
import { basePackFolder, digestOf, findPack, type PackFolder } from './rule-files.ts';
import { VERSION } from '../../host/root.ts';

/** More lines than this drown what stands first; one fault at the top of a file can bring a thousand after it. */
const MOST_TOLD = 200;

/**
 * @param more folders of further packs, laid over the built-in one in order
 * @throws Refusal with every problem, a line each, when a pack does not compile
 */
export async function loadRules(io: Io, more: readonly string[] = []): Promise<CompiledRules> {
  if (more.length === 0) {
    const built = builtIn();
    if (built !== undefined) return built;
  }
  const packs = packFolders(io, more);
  const digest = digestOf(packs, VERSION);
  const { readCache, writeCache } = await import('./rule-cache.ts');
  const kept = readCache(io, digest);
  if (kept !== undefined) return kept;
  const { compilePacks } = await import('./compile-packs.ts');
  const { rules, problems } = compilePacks(packs, digest);
  if (rules === undefined) {
    throw new Refusal(
      [
        ...problems.slice(0, MOST_TOLD).map(problemLine),
        ...(problems.length > MOST_TOLD ? [`... and ${problems.length - MOST_TOLD} more.`] : []),
        'The rules do not compile; fix these lines, then try earshot rules check.',
      ].join('\n'),
      EXIT.usage,
    );
  }
  await writeCache(io, digest, rules);
  return rules;
}

export function packFolders(io: Io, more: readonly string[]): PackFolder[] {
  const base = findPack(basePackFolder(), io.cwd);
  return [{ ...base, shown: 'rules/base' }, ...more.map((path) => findPack(path, io.cwd))];
}

/** Read once a process, whatever asks for them; the date is that of the file. */
let before: { readonly rules: CompiledRules; readonly mtimeMs: number } | undefined;

/** The pack compiled by the build, unless a rule file changed since. */
function builtIn(): CompiledRules | undefined {
  try {
    const stamp = readStamp();
    if (digestNow(stamp) !== stamp.digest) return undefined;
    const { mtimeMs } = statSync(BUILT_RULES);
    if (before?.mtimeMs === mtimeMs && before.rules.digest === stamp.digest) return before.rules;
    const rules = rulesFromText(readFileSync(BUILT_RULES, 'utf8'), () => readFileSync(BUILT_RARE, 'utf8'));
    if (rules.format !== COMPILED_FORMAT || rules.digest !== stamp.digest) return undefined;
    before = { rules, mtimeMs };
    return rules;
  } catch {
    return undefined;
  }
}
