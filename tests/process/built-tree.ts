/** The project copied into a folder of its own, so that a test may change what it likes in it. */
import { cpSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const PROJECT = join(import.meta.dirname, '../..');
const PARTS = ['bin', 'src', 'rules', 'examples', 'package.json', 'tsconfig.json', 'README.md', 'LICENSE'];

export interface Tree {
  readonly folder: string;
  readonly remove: () => void;
}

/** The sources only, with the libraries of this project. */
export function copyTree(): Tree {
  const folder = mkdtempSync(join(tmpdir(), 'earshot-tree-'));
  for (const part of PARTS)
    cpSync(join(PROJECT, part), join(folder, part), { recursive: true, preserveTimestamps: true });
  symlinkSync(join(PROJECT, 'node_modules'), join(folder, 'node_modules'));
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** With what was built, which is never older than its sources: `support/fresh-build.ts` saw to that. */
export function builtTree(): Tree {
  const tree = copyTree();
  const [from, to] = [join(PROJECT, 'dist'), join(tree.folder, 'dist')];
  cpSync(from, to, { recursive: true, preserveTimestamps: true });
  return tree;
}
