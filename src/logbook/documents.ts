/** The files beside the history: cases, trials, the bike sheet and the rider's list, each a YAML file of its own. */
import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { makeFolder, readIfThere, PRIVATE, replaceFile } from '../disk/atomic-file.ts';
import type { Parsed } from '../form/parse.ts';
import type { Problem } from '../form/problem.ts';
import { asLogError } from '../disk/errors.ts';
import { safeName } from '../disk/safe-name.ts';
import { readYaml, writeYaml } from '../disk/yaml-file.ts';

/** Plain data, as YAML holds it. What is in it is the business of those who save it. */
export type Plain = Readonly<Record<string, unknown>>;

export interface Paper {
  readonly id: string;
  readonly file: string;
  readonly data: Plain;
  /** where a path inside it stands in the file */
  readonly locate: Parsed['locate'];
  /** false for an interview that was broken off */
  readonly finished: boolean;
}

export interface Papers {
  readonly papers: readonly Paper[];
  /** files that cannot be read; the others are there all the same */
  readonly problems: readonly Problem[];
}

export type Drawer = 'cases' | 'trials';
const WHAT: Readonly<Record<Drawer, string>> = { cases: 'case', trials: 'trial' };
const ENDING = '.yaml';
const OPEN_ENDING = '.open.yaml';

/** Saves under the id, which is written into the data. An unfinished paper has a name of its own until it is finished. */
export async function savePaper(
  folder: string,
  drawer: Drawer,
  id: string,
  data: Plain,
  finished: boolean,
): Promise<string> {
  const name = safeName(id, WHAT[drawer]);
  makeFolder(join(folder, drawer));
  const file = join(folder, drawer, `${name}${finished ? ENDING : OPEN_ENDING}`);
  await replaceFile(file, writeYaml(data['id'] === id ? data : { ...data, id }), PRIVATE);
  if (finished) await rm(join(folder, drawer, `${name}${OPEN_ENDING}`), { force: true });
  return file;
}

/** All papers of a drawer in order of file name; a finished one hides an unfinished one of the same name. */
export async function loadPapers(folder: string, drawer: Drawer): Promise<Papers> {
  const papers: Paper[] = [];
  const problems: Problem[] = [];
  const names = await listed(join(folder, drawer));
  for (const name of names) {
    const open = name.endsWith(OPEN_ENDING);
    const stem = name.slice(0, -(open ? OPEN_ENDING : ENDING).length);
    if (open && names.includes(`${stem}${ENDING}`)) continue;
    const file = join(folder, drawer, name);
    const read = readYaml((await readIfThere(file))?.toString('utf8') ?? '', file);
    if (read.value === undefined) problems.push(...read.problems);
    else {
      const { value: data, locate } = read;
      papers.push({ id: idOf(data, stem), file, data, locate, finished: !open });
    }
  }
  return { papers, problems };
}

function idOf(data: Plain, stem: string): string {
  return typeof data['id'] === 'string' ? data['id'] : stem;
}

async function listed(folder: string): Promise<string[]> {
  try {
    return (await readdir(folder)).filter((name) => name.endsWith(ENDING) && !name.startsWith('.')).sort();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw asLogError(error, folder);
  }
}
