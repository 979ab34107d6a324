/** Finds rule packs on disk and hashes them; reading and compiling happen only when no compiled form fits. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { COMPILED_FORMAT } from '../../rulebase/compiled.ts';
import { Refusal } from '../../host/io.ts';
import { ROOT } from '../../host/root.ts';
import { sha256 } from '../../disk/sha256.ts';

export interface PackFolder {
  readonly folder: string;
  /** how the folder is named in messages */
  readonly shown: string;
  /** paths below the folder, sorted, with / between */
  readonly files: readonly string[];
}

const MOST_FILES = 2_000;

/** @throws Refusal when it is no folder, or holds no pack.yaml */
export function findPack(path: string, cwd: string): PackFolder {
  const folder = resolve(cwd, path);
  const shown = path;
  const files: string[] = [];
  const walk = (here: string): void => {
    for (const entry of readdirSync(here, { withFileTypes: true }).sort((a, b) =>
      a.name < b.name ? -1 : 1,
    )) {
      if (entry.name.startsWith('.')) continue;
      const full = join(here, entry.name);
      if (entry.isDirectory()) walk(full);
      else if (/\.ya?ml$/.test(entry.name)) files.push(relative(folder, full).replaceAll('\\', '/'));
      if (files.length > MOST_FILES)
        throw new Refusal(`${shown}: more than ${MOST_FILES} rule files. Name the folder of one pack.`);
    }
  };
  try {
    if (!statSync(folder).isDirectory())
      throw new Refusal(`${shown}: a rule pack is a folder with a pack.yaml. Name its folder.`);
    walk(folder);
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${shown}: there is no such folder of rules. Check --rules.`);
  }
  if (!files.includes('pack.yaml'))
    throw new Refusal(
      `${shown}: there is no pack.yaml in this folder. Every pack begins with one; see examples/packs.`,
    );
  return { folder, shown, files };
}

/** The folder of the built-in pack. */
export function basePackFolder(): string {
  return join(ROOT, 'rules', 'base');
}

/** Content hash of packs in order, with the version of the compiler: the key of every compiled form. */
export function digestOf(packs: readonly PackFolder[], version: string): string {
  const hash = sha256().update(`${COMPILED_FORMAT}\0${version}\0`);
  for (const pack of packs) {
    for (const file of pack.files) {
      if (isChecks(file)) continue;
      hash
        .update(`${file}\0`)
        .update(readFileSync(join(pack.folder, file)))
        .update('\0');
    }
    hash.update('\0');
  }
  return hash.digest('hex');
}

/** Checks change no result, so they are no part of the digest. */
export function isChecks(file: string): boolean {
  return /\.checks\.ya?ml$/.test(file);
}
