/** The program starts from one compiled file; without it, or with another's, it must do the very same. */
import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { builtTree, copyTree, type Tree } from './built-tree.ts';

let tree: Tree;
beforeAll(() => {
  tree = builtTree();
}, 120_000);
afterAll(() => tree.remove());

const earshot = (...args: string[]) => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(tree.folder, 'bin/earshot.js'), ...args],
    {
      cwd: tree.folder,
      encoding: 'utf8',
      maxBuffer: 1e9,
      env: { PATH: process.env['PATH'], EARSHOT_HOME: tree.folder },
    },
  );
  return { status, stdout, stderr };
};
const lines = [
  ['--version'],
  ['--help'],
  [],
  ['diagnose', '--help'],
  ['diagnose', 'examples/cases/fork-packs-down.yaml'],
  ['diagnose', 'examples/cases/fork-packs-down.yaml', '--format', 'json', '--full'],
  ['diagnose', 'examples/batch.ndjson', '--format', 'ndjson', '--next', '--explain'],
  ['diagnose', 'no-such-file.yaml'],
  ['diagnose', '--bike', 'no-such-bike.yaml', 'examples/cases/fork-packs-down.yaml'],
  ['--rules', 'no-such-pack', 'diagnose', 'examples/cases/fork-packs-down.yaml'],
  ['explain', 'examples/cases/fork-packs-down.yaml', 'nonsense'],
  ['rules', 'show', 'nonsense'],
  ['nonsense'],
];

describe('the start of the program', () => {
  it('has a compiled form that the engine takes', () => {
    const hook = join(tree.folder, 'hook.cjs');
    writeFileSync(
      hook,
      `const vm = require('node:vm');
       const { Script } = vm;
       vm.Script = class extends Script {
         constructor(...given) {
           super(...given);
           process.stderr.write('rejected: ' + this.cachedDataRejected);
         }
       };`,
    );
    const { stderr } = spawnSync(process.execPath, ['-r', hook, 'bin/earshot.js', '--version'], {
      cwd: tree.folder,
      encoding: 'utf8',
    });
    expect(stderr).toBe('rejected: false');
  });
  it('comes to the same from the one file, from a torn compiled form, and from the modules', () => {
    const file = join(tree.folder, 'dist/quick.cjs');
    const quick = lines.map((line) => earshot(...line));
    expect(quick[0]!.stdout).toMatch(/^earshot \d/);
    expect(quick.map(({ status }) => status)).toEqual([0, 0, 2, 0, 0, 0, 0, 1, 2, 2, 2, 2, 2]);
    writeFileSync(`${file}.cache`, 'torn');
    expect(lines.map((line) => earshot(...line))).toEqual(quick);
    rmSync(file);
    expect(lines.map((line) => earshot(...line))).toEqual(quick);
  }, 120_000);
  it('says what to do where nothing was built', () => {
    const bare = copyTree();
    const { status, stderr } = spawnSync(process.execPath, [join(bare.folder, 'bin/earshot.js')], {
      encoding: 'utf8',
    });
    bare.remove();
    expect({ status, stderr }).toEqual({
      status: 2,
      stderr: 'earshot is not built yet. In its folder: npm ci, or npm run build.\n',
    });
  });
  it('sees an edited rule at once, whatever its date says', () => {
    const rule = join(tree.folder, 'rules/base/pack.yaml');
    writeFileSync(rule, readFileSync(rule, 'utf8').replace('minutes-floor: 0.3', 'minutes-floor: 0.4'));
    utimesSync(rule, 0, 0);
    expect(earshot('--version').stdout).toContain('edited since');
  });
});
