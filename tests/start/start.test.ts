/** The program starts from two compiled files; without them, or with another's, it must do the very same. */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { builtTree, PROJECT, type Tree } from '../process/built-tree.ts';
import { earshot as inModules } from '../support/io.ts';

let tree: Tree;
/** A typographic minus, as people type it, and an accent. */
const MINUS = `case: 1
id: très mou
answers: { hit-pattern: row }
earlier:
  - answers: { complaint: rows }
    results: [{ change: front.rebound.high−2, outcome: worse }]
`;
beforeAll(() => {
  tree = builtTree();
  writeFileSync(join(tree.folder, 'minus.yaml'), MINUS);
  const batch = readFileSync(join(tree.folder, 'examples/batch.ndjson'), 'utf8').split('\n');
  writeFileSync(join(tree.folder, 'few.ndjson'), batch.slice(0, 20).join('\n'));
});
/** Runs with one file of the tree as it is made, and puts it back: the tests share the tree. */
function changed(path: string, change: (file: string) => void, work: () => void): void {
  const file = join(tree.folder, path);
  const { mtimeMs } = statSync(file);
  const bytes = readFileSync(file);
  try {
    change(file);
    work();
  } finally {
    writeFileSync(file, bytes);
    utimesSync(file, mtimeMs / 1000, mtimeMs / 1000);
  }
}
afterAll(() => tree.remove());

/** The first line of the program says whose compiled form is beside it. */
const ofAnotherEngine = (file: string): void =>
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^.* V8 .*$/m, '// V8 of another'));

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
  ['diagnose', 'few.ndjson', '--format', 'ndjson', '--next', '--explain'],
  ['diagnose', 'minus.yaml'],
  ['diagnose', 'no-such-file.yaml'],
  ['diagnose', '--bike', 'no-such-bike.yaml', 'examples/cases/fork-packs-down.yaml'],
  ['--rules', 'no-such-pack', 'diagnose', 'examples/cases/fork-packs-down.yaml'],
  ['explain', 'examples/cases/fork-packs-down.yaml', 'nonsense'],
  ['rules', 'show', 'nonsense'],
  ['nonsense'],
];

/** From the program's files; each line is run once. */
const ran = new Map<readonly string[], ReturnType<typeof earshot>>();
const quickly = (line: readonly string[]): ReturnType<typeof earshot> => {
  const one = ran.get(line) ?? earshot(...line);
  ran.set(line, one);
  return one;
};

/** What a start of these words reads of the program: a line a file, with the size of its compiled form and whether that was refused. */
function filesRead(line: readonly string[], env = process.env): string {
  const hook = join(tree.folder, 'hook.cjs');
  writeFileSync(
    hook,
    `const vm = require('node:vm');
     const { Script } = vm;
     vm.Script = class extends Script {
       constructor(...given) {
         super(...given);
         const { filename, cachedData } = given[1];
         process.stderr.write(require('node:path').basename(filename) + ' ' + cachedData?.length + ' ' + this.cachedDataRejected + '\\n');
       }
     };`,
  );
  const node = ['-r', hook, 'bin/earshot.js', ...line];
  return spawnSync(process.execPath, node, { cwd: tree.folder, encoding: 'utf8', env }).stderr;
}

describe('the start of the program', () => {
  it('has a compiled form that the engine takes', () => {
    const of = {
      '.--version': ['--version'],
      '.diagnose': ['diagnose', '--help'],
      '.explain': ['--color', 'never', 'explain', '--help'],
      '': ['--help'],
    };
    for (const [own, line] of Object.entries(of)) {
      const stderr = filesRead(line);
      // The whole help is all commands', and they are in both files.
      const files = own === '' ? ['program.cjs', 'rest.cjs'] : ['program.cjs'];
      const sizes = files.map((file) => statSync(join(tree.folder, `dist/${file}${own}.cache`)).size);
      expect(stderr).toBe(files.map((file, i) => `${file} ${sizes[i]} false\n`).join(''));
    }
  });
  it('reads its second file only where no earlier start told the case', () => {
    const home = mkdtempSync(join(tmpdir(), 'earshot-told-'));
    const read = (line: readonly string[]): string[] => {
      const said = filesRead(line, { PATH: process.env['PATH'], EARSHOT_HOME: home });
      return said.split('\n').flatMap((one) => one.split(' ')[0] || []);
    };
    for (const command of ['diagnose', 'explain', 'report']) {
      const line = [command, 'examples/cases/fork-packs-down.yaml'];
      expect(read(line)).toEqual(['program.cjs', 'rest.cjs']);
      expect(read(line)).toEqual(['program.cjs']);
    }
    rmSync(home, { recursive: true });
  });
  it('bears the mark that kept things are told by only once all of it is there', () => {
    const at = (file: string): number => statSync(join(tree.folder, 'dist', file)).mtimeMs;
    const files = readdirSync(join(tree.folder, 'dist')).filter((name) =>
      /^(?:program|rest)\.cjs/.test(name),
    );
    expect(files.length).toBeGreaterThan(4);
    // A date that is set has whole milliseconds.
    expect(at('rules/physics.json')).toBeGreaterThan(Math.max(...files.map(at)) - 1);
  });
  it('comes to the same from its files, from a torn compiled form, and from the modules', () => {
    const quick = lines.map(quickly);
    expect(quick[0]!.stdout).toMatch(/^earshot \d/);
    expect(quick.map(({ status }) => status)).toEqual([0, 0, 2, 0, 0, 0, 0, 0, 2, 2, 2, 2, 2, 2]);
    const alike = (some: readonly number[]) => (): void =>
      expect(some.map((i) => earshot(...lines[i]!))).toEqual(some.map((i) => quick[i]));
    // A command without a compiled form of its own takes that of all.
    const torn = { '': [12], '.--version': [0], '.diagnose': [4, 8] };
    for (const [own, some] of Object.entries(torn))
      changed(`dist/program.cjs${own}.cache`, (file) => writeFileSync(file, 'torn'), alike(some));
    changed('dist/program.cjs.diagnose.cache', (file) => rmSync(file), alike([4]));
    // Another engine takes it piece by piece, or with the compiled form that it left before.
    changed('dist/program.cjs', ofAnotherEngine, alike([0, 1, 4, 7, 8, 12, 0, 4, 12]));
    for (const file of ['program', 'rest'])
      changed(`dist/${file}.cjs`, (path) => rmSync(path), alike([0, 4, 13]));
  });
  it('keeps a compiled form for another engine than that of the build, and takes what it wrote and no other', () => {
    const home = join(tree.folder, 'elsewhere');
    const hook = join(tree.folder, 'taken.cjs');
    writeFileSync(
      hook,
      `const vm = require('node:vm');
       const { Script } = vm;
       vm.Script = class extends Script {
         constructor(...given) {
           super(...given);
           if (given[1].cachedData !== undefined) process.stderr.write('rejected: ' + this.cachedDataRejected);
         }
       };`,
    );
    const start = (command: string) => {
      const line = ['-r', hook, join(tree.folder, 'bin/earshot.js'), command, '--help'];
      const { stdout, stderr } = spawnSync(process.execPath, line, {
        encoding: 'utf8',
        env: { PATH: process.env['PATH'], EARSHOT_HOME: home },
      });
      return { stdout, stderr };
    };
    changed('dist/program.cjs', ofAnotherEngine, () => {
      const { stdout } = quickly(['diagnose', '--help']);
      expect(start('diagnose')).toEqual({ stdout, stderr: '' });
      expect(start('diagnose')).toEqual({ stdout, stderr: 'rejected: false' });
      // Each of the commands that the build has a form for has its own; the rest takes no part in it.
      expect(start('explain').stderr).toBe('');
      expect(start('search').stderr).toBe('');
      const folder = join(home, 'earshot', 'code');
      const files = readdirSync(folder).filter((name) => name.endsWith('.json'));
      expect(files.map((name) => /[a-z]+(?=\.json$)/.exec(name)![0]).sort()).toEqual(['diagnose', 'explain']);
      const file = join(
        folder,
        files.find((name) => name.endsWith('diagnose.json'))!,
      );
      const bytes = readFileSync(file);
      bytes[bytes.length - 1]! ^= 1;
      writeFileSync(file, bytes);
      expect(start('diagnose')).toEqual({ stdout, stderr: '' });
      expect(start('diagnose')).toEqual({ stdout, stderr: 'rejected: false' });
    });
  });
  it.each(lines.map((line) => [line.join(' '), line] as const))(
    'does the same as the modules: %s',
    async (_, line) => {
      // In this process: they are the very files that stand in for the program's files when these are not there.
      const { code, out, err } = await inModules(line, {
        cwd: tree.folder,
        env: { EARSHOT_HOME: tree.folder },
      });
      expect({ status: code, stdout: out, stderr: err }).toEqual(quickly(line));
    },
  );
  it('reads a typographic minus, and prints accents, from its files as from the modules', () => {
    const { status, stdout, stderr } = earshot('diagnose', 'minus.yaml');
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toContain('très mou');
    // It is read a byte a letter.
    for (const file of ['program.cjs', 'rest.cjs'])
      expect(readFileSync(join(tree.folder, 'dist', file), 'utf8')).toMatch(/^[\n\t\x20-\x7e]*$/);
  });
  it('writes a log, which wants a library that is in no file of its own', () => {
    const bike = ['--bike', 'examples/bikes/all-knobs.yaml'];
    expect(earshot('log', 'note', 'first', ...bike)).toMatchObject({ status: 0, stderr: '' });
    expect(earshot('log', ...bike).stdout).toContain('first');
  });
  it('says what to do where nothing was built', () => {
    // All that it needs to say so.
    const bare = mkdtempSync(join(tmpdir(), 'earshot-bare-'));
    for (const part of ['bin', 'package.json'])
      cpSync(join(PROJECT, part), join(bare, part), { recursive: true });
    const { status, stderr } = spawnSync(process.execPath, [join(bare, 'bin/earshot.js')], {
      encoding: 'utf8',
    });
    rmSync(bare, { recursive: true });
    expect({ status, stderr }).toEqual({
      status: 2,
      stderr: 'earshot is not built yet. In its folder: npm ci, or npm run build.\n',
    });
  });
  it('sees an edited rule at once, whatever its date says', () => {
    const edit = (rule: string): void => {
      writeFileSync(rule, readFileSync(rule, 'utf8').replace('minutes-floor: 0.3', 'minutes-floor: 0.4'));
      utimesSync(rule, 0, 0);
    };
    changed('rules/base/pack.yaml', edit, () =>
      expect(earshot('--version').stdout).toContain('edited since'),
    );
  });
});
