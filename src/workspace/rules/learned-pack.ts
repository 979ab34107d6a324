/** Writes what was learned as a pack of its own; the built-in pack is never touched. */
import { finePercent } from '../../form/text.ts';
import { readdirSync, realpathSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { Document, isMap, isScalar, stringify } from 'yaml';
import type { Learned } from '../../evaluation/learn.ts';
import type { Overrides, Sources } from '../../evaluation/learn-pack.ts';
import { folderAside } from '../../logbook/folder-aside.ts';
import { makeFolders } from '../../disk/make-folders.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { problemLine } from '../../form/problem.ts';
import type { RuleFile } from '../../rulebase/schema/rule-file.ts';
import { compilePacks } from './compile-packs.ts';
import { Refusal } from '../../host/io.ts';
import { readRules } from './read-pack-file.ts';
import { basePackFolder, digestOf, findPack, isChecks, type PackFolder } from './rule-files.ts';
import { VERSION } from '../../host/root.ts';

export interface OutFolder {
  readonly folder: string;
  /** as it was given */
  readonly shown: string;
}

/** @throws Refusal inside the built-in pack, and for a folder that holds anything */
export function checkedOut(shown: string, cwd: string): OutFolder {
  const folder = real(resolve(cwd, shown));
  const inBase = relative(real(basePackFolder()), folder);
  if (inBase === '' || (!inBase.startsWith(`..${sep}`) && inBase !== '..' && resolve(inBase) !== inBase))
    throw new Refusal(
      `--out ${shown}: this is the built-in pack, which is never changed. Name a new folder.`,
    );
  const there = statSync(folder, { throwIfNoEntry: false });
  if (there !== undefined && (!there.isDirectory() || readdirSync(folder).length > 0))
    throw new Refusal(
      `--out ${shown}: ${there.isDirectory() ? 'this folder is not empty' : 'this is no folder'}. Name a new or empty folder; what was learned before is never overwritten.`,
    );
  return { folder, shown };
}

/** The path with every link followed, as far as it exists. */
function real(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    const up = dirname(path);
    return up === path ? path : join(real(up), basename(path));
  }
}

/** The entries as written; a later pack's stand for an earlier one's of the same id. The files compiled before. */
export function sourcesOf(packs: readonly PackFolder[]): Sources {
  const questions = new Map<string, NonNullable<RuleFile['questions']>[number]>();
  const settings = new Map<string, NonNullable<RuleFile['settings']>[number]>();
  for (const pack of packs)
    for (const file of pack.files) {
      if (file === 'pack.yaml' || isChecks(file)) continue;
      const data = readRules(pack, file).parsed.data as RuleFile | null | undefined;
      for (const q of data?.questions ?? []) questions.set(q.id, q);
      for (const s of data?.settings ?? []) settings.set(s.id, s);
    }
  return { questions: [...questions.values()], settings: [...settings.values()] };
}

/**
 * Writes the pack aside, compiles it there over the others, and gives it its name in one step: it is whole, or not there.
 * @throws Refusal when the folder cannot be written, or the pack does not compile
 */
export async function writePack(
  out: OutFolder,
  rules: CompiledRules,
  learned: Learned,
  overrides: Overrides,
  packs: readonly PackFolder[],
): Promise<void> {
  const over = rules.packs.map((p) => `${p.name} ${p.version}`).join(', ');
  const pack = {
    pack: packId(out.folder, rules),
    version: '0.1.0',
    about: `Words moved by ${learned.cases} logged cases, over ${over}.`,
    ...(overrides.expectedCauses === undefined
      ? {}
      : { numbers: { 'expected-causes': Number(overrides.expectedCauses.toFixed(6)) } }),
  };
  await refusing(out.shown, async () => {
    makeFolders(dirname(out.folder));
    await folderAside(out.folder, 'pack.yaml', async (aside) => {
      writeFileSync(join(aside, 'pack.yaml'), stringify(pack));
      writeFileSync(join(aside, 'learned.yaml'), rulesText(learned, overrides), { flag: 'wx' });
      const all = [...packs, { ...findPack(aside, aside), shown: out.shown }];
      const { rules: compiled, problems } = compilePacks(all, digestOf(all, VERSION));
      if (compiled === undefined)
        throw new Refusal(
          [`--out ${out.shown}: the pack does not compile.`, ...problems.map(problemLine)].join('\n'),
        );
    });
  });
}

async function refusing(shown: string, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(
      `--out ${shown}: it cannot be written (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'}). Choose another folder.`,
    );
  }
}

/** The overriding entries, each moved word with a comment on what it was and what stands behind it. */
function rulesText(learned: Learned, { questions, settings, moved }: Overrides): string {
  const document = new Document({
    ...(settings.length === 0 ? {} : { settings }),
    ...(questions.length === 0 ? {} : { questions }),
  });
  for (const m of moved) {
    const section = m.kind === 'prior' ? 'settings' : 'questions';
    const list = m.kind === 'prior' ? settings : questions;
    const e = m.kind === 'prior' ? learned.priors[m.index]! : learned.strengths[m.index]!;
    const at = list.findIndex((entry) => entry.id === m.entry);
    const node = document.getIn([section, at, ...m.path], true);
    if (isScalar(node))
      node.comment = ` was ${m.from}; ${finePercent(e.value)} (${finePercent(e.low)} to ${finePercent(e.high)}), ${e.cases} cases`;
    const entry = document.getIn([section, at], true);
    if (isMap(entry)) entry.spaceBefore = at > 0;
  }
  return document.toString({ lineWidth: 110 });
}

/** The folder's name as an id that no pack below it has. */
function packId(folder: string, rules: CompiledRules): string {
  const id = basename(folder)
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  const taken = new Set(rules.packs.map((p) => p.name));
  let free = id === '' ? 'learned' : id;
  while (taken.has(free)) free = `${free}-learned`;
  return free;
}
