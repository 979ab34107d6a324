/** The compiled rule base: built in, cached, or compiled now. An edited rule takes effect at once. */
import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { makeFolders } from '../logbook/make-folders.ts';
import { COMPILED_FORMAT, type CompiledRules } from '../rulebase/compiled.ts';
import { problemLine } from '../rulebase/problem.ts';
import { BUILT, digestNow, readStamp } from './built-in.ts';
import { EXIT, Refusal, type Io } from './io.ts';
import { basePackFolder, digestOf, findPack, type PackFolder } from './rule-files.ts';
import { sha256 } from './sha256.ts';
import { VERSION } from './version.ts';

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
  const kept = readCache(cacheFile(io, digest), digest);
  if (kept !== undefined) return kept;
  const { compilePacks } = await import('./compile-packs.ts');
  const { rules, problems } = compilePacks(packs, digest);
  if (rules === undefined) {
    throw new Refusal(
      [
        ...problems.map(problemLine),
        'The rules do not compile; fix these lines, then try earshot rules check.',
      ].join('\n'),
      EXIT.usage,
    );
  }
  writeCache(cacheFile(io, digest), rules);
  return rules;
}

export function packFolders(io: Io, more: readonly string[]): PackFolder[] {
  const base = findPack(basePackFolder(), io.cwd);
  return [{ ...base, shown: 'rules/base' }, ...more.map((path) => findPack(path, io.cwd))];
}

/** The pack compiled by the build, unless a rule file changed since. */
function builtIn(): CompiledRules | undefined {
  try {
    const stamp = readStamp();
    if (digestNow(stamp) !== stamp.digest) return undefined;
    const rules = JSON.parse(readFileSync(join(BUILT, 'base.json'), 'utf8')) as CompiledRules;
    return rules.format === COMPILED_FORMAT && rules.digest === stamp.digest ? rules : undefined;
  } catch {
    return undefined;
  }
}

/** Where compiled user packs are kept; nothing there is ever needed. */
function cacheFile(io: Io, digest: string): string {
  const home =
    io.env['EARSHOT_HOME'] ??
    io.env['XDG_CACHE_HOME'] ??
    (process.platform === 'win32' ? tmpdir() : join(homedir(), '.cache'));
  return join(home, 'earshot', 'rules', `${digest}.json`);
}

/** A cached form counts only when its own checksum holds. */
function readCache(file: string, digest: string): CompiledRules | undefined {
  try {
    const text = readFileSync(file, 'utf8');
    const cut = text.indexOf('\n');
    const body = text.slice(cut + 1);
    if (text.slice(0, cut) !== checksum(body)) return undefined;
    const rules = JSON.parse(body) as CompiledRules;
    return rules.format === COMPILED_FORMAT && rules.digest === digest ? rules : undefined;
  } catch {
    return undefined;
  }
}

function writeCache(file: string, rules: CompiledRules): void {
  const body = JSON.stringify(rules);
  const aside = `${file}.${process.pid}`;
  try {
    makeFolders(dirname(file));
    writeFileSync(aside, `${checksum(body)}\n${body}`);
    renameSync(aside, file);
  } catch {
    // A cache that cannot be written only costs time. Nothing can be removed either where a file is in the way.
    try {
      rmSync(aside, { force: true });
    } catch {
      return;
    }
  }
}

function checksum(body: string): string {
  return sha256().update(body).digest('hex');
}
