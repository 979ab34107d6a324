/** The package as it is published: what is in it, and that its main jobs work from an empty folder. */
import { execFileSync, spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { copyTree, PROJECT, type Tree } from '../process/built-tree.ts';

interface PackageFile {
  readonly bin: Readonly<Record<string, string>>;
  readonly main: string;
  readonly types: string;
  readonly dependencies: Readonly<Record<string, string>>;
}

/** Packed empty and put in after it: to press them costs more than all else here, and shows nothing. */
const BULKY: readonly string[] = [
  'dist/rules/base.numbers',
  ...readdirSync(join(PROJECT, 'dist'))
    .filter((file) => file.endsWith('.cache'))
    .map((file) => `dist/${file}`),
];

let tree: Tree;
let empty: string;
let files: string[];
let about: PackageFile;
beforeAll(() => {
  tree = copyTree();
  // A build takes longer than all else here, and was made of these very sources before the tests: it is copied.
  const file = join(tree.folder, 'package.json');
  const own = JSON.parse(readFileSync(file, 'utf8')) as { scripts: Record<string, string> };
  expect(own.scripts['prepare']).toBe('npm run build');
  const copied = { recursive: true, preserveTimestamps: true };
  own.scripts['build'] =
    `node -e "fs.cpSync('${join(PROJECT, 'dist')}', 'dist', ${JSON.stringify(copied).replaceAll('"', "'")})"`;
  empty = mkdtempSync(join(tmpdir(), 'earshot-packed-'));
  own.scripts['prepare'] +=
    ` && node -e "${BULKY.map((file) => `fs.writeFileSync('${file}', '')`).join('; ')}"`;
  writeFileSync(file, JSON.stringify(own));
  // A module that was renamed or taken out must not live on in the package.
  mkdirSync(join(tree.folder, 'dist'));
  writeFileSync(join(tree.folder, 'dist/stale.js'), '');
  for (const stray of ['notes.txt', 'rules/base/notes.txt', 'examples/notes.txt'])
    writeFileSync(join(tree.folder, stray), '');
  const told = JSON.parse(
    execFileSync('npm', ['pack', '--json', '--pack-destination', empty], {
      cwd: tree.folder,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      maxBuffer: 1e9,
    }),
  ) as { filename: string; files: { path: string }[] }[];
  files = told[0]!.files.map(({ path }) => path).sort();
  const home = join(empty, 'node_modules/earshot');
  mkdirSync(home, { recursive: true });
  execFileSync('tar', ['xzf', join(empty, told[0]!.filename), '-C', home, '--strip-components=1']);
  for (const bulky of BULKY) copyFileSync(join(PROJECT, bulky), join(home, bulky));
  about = JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')) as PackageFile;
  // As an install without the development tools leaves it: what the package asks for, and no more.
  for (const name of Object.keys(about.dependencies)) {
    const place = join(empty, 'node_modules', name);
    mkdirSync(dirname(place), { recursive: true });
    symlinkSync(join(tree.folder, 'node_modules', name), place);
  }
});
afterAll(() => {
  tree.remove();
  rmSync(empty, { recursive: true, force: true });
});

const earshot = (...argv: string[]): { code: number | null; out: string; err: string } => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(empty, 'node_modules/earshot', about.bin['earshot']!), ...argv],
    { cwd: empty, encoding: 'utf8', env: { ...process.env, EARSHOT_HOME: join(empty, 'home') } },
  );
  return { code: status, out: stdout, err: stderr };
};

describe('the package', () => {
  it('holds the program, its types, the rules and the examples, and nothing else', () => {
    const known =
      /^(bin\/(earshot\.js|package\.json)|dist\/.+\.(js|d\.ts)|dist\/(program|rest)\.(cjs|cjs(\.[a-z-]+)?\.cache|LICENSES\.txt)|dist\/rules\/(base|base\.rare|base\.stamp|physics)\.json|dist\/rules\/base\.(numbers|words)|rules\/.+\.yaml|rules\/README\.md|examples\/.+\.(yaml|ndjson)|README\.md|LICENSE|package\.json)$/;
    expect(files.filter((file) => !known.test(file))).toEqual([]);
    expect(files).not.toContain('dist/stale.js');
    expect(files.filter((file) => file.startsWith('dist/start'))).toEqual([]);
  });
  it('holds what it needs to start without a build', () => {
    const built = [
      'base.json',
      'base.rare.json',
      'base.words',
      'base.stamp.json',
      'base.numbers',
      'physics.json',
    ];
    expect(files).toEqual(expect.arrayContaining(built.map((file) => `dist/rules/${file}`)));
    expect(files).toEqual(
      expect.arrayContaining([
        'dist/program.cjs',
        'dist/program.cjs.cache',
        'dist/program.cjs.diagnose.cache',
        'dist/rest.cjs',
        'dist/rest.cjs.diagnose.cache',
      ]),
    );
    expect(files).toEqual(expect.arrayContaining(['README.md', 'LICENSE', 'rules/base/pack.yaml']));
    for (const face of [about.main, about.types, ...Object.values(about.bin)])
      expect(files).toContain(face.replace('./', ''));
  });
  it('can be imported as a library', () => {
    const script = "import('earshot').then((all) => console.log(typeof all.buildModel))";
    const out = execFileSync(process.execPath, ['-e', script], { cwd: empty, encoding: 'utf8' });
    expect(out).toBe('function\n');
  });
});

describe('the installed program', () => {
  const example = 'node_modules/earshot/examples/cases/fork-packs-down.yaml';
  it('diagnoses a case with the rules as built, without compiling any', () => {
    // What another test kept there says nothing of this one.
    rmSync(join(empty, 'home/earshot/rules'), { recursive: true, force: true });
    const { code, out, err } = earshot('diagnose', example);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('Do this first');
    // Compiled rules would have been kept here.
    expect(existsSync(join(empty, 'home/earshot/rules'))).toBe(false);
    expect(earshot('--version').out).not.toContain('edited');
  });
  it('predicts, prints a pit sheet and checks its rules', () => {
    expect(earshot('predict', '--change', 'front.rebound.low+2')).toMatchObject({ code: 0, err: '' });
    expect(earshot('report', example).out).toMatch(/^<!doctype html>/i);
    const checked = earshot('rules', 'check', '--only', 'travel');
    expect(checked).toMatchObject({ code: 0, err: '' });
    expect(checked.out).toMatch(/0 errors/);
  });
  it('sees a rule that was edited in place', () => {
    const pack = join(empty, 'node_modules/earshot/rules/base/pack.yaml');
    const before = readFileSync(pack, 'utf8');
    writeFileSync(pack, `${before}# a word more\n`);
    expect(earshot('--version').out).toContain('edited since the program was built');
    expect(earshot('diagnose', example).code).toBe(0);
    writeFileSync(pack, before);
  });
  it('refuses an interview without a terminal, and says what to do', () => {
    const { code, err } = earshot('interview');
    expect(code).toBe(2);
    expect(err).toContain('earshot diagnose');
  });
});
