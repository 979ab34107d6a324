/** The project copied and built in a folder of its own, so that a test of the real program hangs on no earlier build. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const PROJECT = join(import.meta.dirname, '../..');
const PARTS = ['bin', 'src', 'rules', 'examples', 'package.json', 'tsconfig.json', 'README.md', 'LICENSE'];

export interface Tree {
  readonly folder: string;
  readonly remove: () => void;
}

/** The sources only, with the libraries of this project. */
export function copyTree(): Tree {
  const folder = mkdtempSync(join(tmpdir(), 'earshot-tree-'));
  for (const part of PARTS) cpSync(join(PROJECT, part), join(folder, part), { recursive: true });
  symlinkSync(join(PROJECT, 'node_modules'), join(folder, 'node_modules'));
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

export function builtTree(): Tree {
  const tree = copyTree();
  const run = (script: string, ...args: string[]): void =>
    void execFileSync(process.execPath, [join(tree.folder, script), ...args], { cwd: tree.folder });
  run('node_modules/typescript/bin/tsc', '-p', 'tsconfig.json');
  run('dist/start/build.js');
  return tree;
}
