/**
 * The whole program goes into two files with their compiled forms beside them, every module once: loading hundreds of modules
 * one by one would cost more than a case. Modules that a line imports only when it is called are made ready only then
 * (`pieces.ts`), and the second file is only read where one of its modules is: a case that an earlier start told needs none.
 */
import { execFile } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { build, type Metafile, type Plugin } from 'esbuild';
import { ROOT } from '../host/root.ts';
import { LINES } from './compile-cache.ts';
import { scriptOf } from './pieces.ts';
import { removeCaches } from './stale.ts';

const DIST = join(ROOT, 'dist');
const PROGRAM = join(DIST, 'program.cjs');
/** What `bin/earshot.js` reads only when a piece of it is asked for. */
const REST = join(DIST, 'rest.cjs');

/** Where lines of the commands used most begin: all that these need is read at every start, and whatever is asked for later is not. */
const FIRST = [
  'main.js',
  'workspace/kept-code.js',
  'console/style.js',
  'form/parse.js',
  'workspace/bikes/load-sheet.js',
  'logbook/home.js',
  'form/problem.js',
  'report/pit-sheet/html.js',
  'workspace/physics.js',
  'workspace/rules/built-in.js',
  'workspace/rules/rule-cache.js',
  ...Object.keys(LINES)
    .filter((name) => /^[a-z]/.test(name))
    .map((name) => `cli/commands/${name}.js`),
];

/** What libraries bring that nothing here uses, and that would be dear to read: starting processes, an editor. */
const unused: Plugin = {
  name: 'unused',
  setup({ onResolve, onLoad }) {
    const nothing = { path: 'nothing', namespace: 'nothing' };
    onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      /[\\/]commander[\\/]/.test(importer) ? nothing : undefined,
    );
    onResolve({ filter: /^@inquirer\/external-editor$/ }, () => nothing);
    onLoad({ filter: /.*/, namespace: 'nothing' }, () => ({ contents: 'module.exports = {};' }));
  },
};

/** Writes the file, its compiled form and the licences of what is in it. */
export async function bundle(): Promise<void> {
  // What was compiled of another text must not be beside it.
  for (const file of [PROGRAM, REST]) removeCaches(DIST, basename(file));
  const { metafile, outputFiles } = await build({
    // Side by side, because pieces ask for each other by their names in one folder.
    entryPoints: [
      { in: join(DIST, 'main.js'), out: 'main' },
      { in: join(DIST, 'workspace', 'kept-code.js'), out: 'kept-code' },
    ],
    outdir: DIST,
    write: false,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minifyWhitespace: true,
    minifySyntax: true,
    legalComments: 'none',
    logLevel: 'warning',
    metafile: true,
    // It finds its own compiled part beside its own file.
    external: ['fs-native-extensions'],
    define: { 'import.meta.url': '__here' },
    plugins: [unused],
  });
  // It is read a byte a letter, which is the quickest: so it has to be all ASCII. What the bundler leaves are the letters in
  // regular expressions, where an escape means the same.
  const first = neededBy(metafile);
  for (const [file, isIn] of [
    [PROGRAM, true],
    [REST, false],
  ] as const) {
    const pieces = outputFiles.filter(({ path }) => first.has(path) === isIn);
    writeFileSync(file, escaped(await scriptOf(DIST, pieces)));
  }
  writeFileSync(join(DIST, 'program.LICENSES.txt'), licences(Object.keys(metafile.inputs)));
  await compile();
}

/** The pieces that the first modules ask for at once, by path. */
function neededBy({ outputs }: Metafile): ReadonlySet<string> {
  const found = new Set<string>();
  const add = (path: string): void => {
    if (found.has(resolve(path)) || outputs[path] === undefined) return;
    found.add(resolve(path));
    for (const one of outputs[path].imports) if (one.kind === 'import-statement') add(one.path);
  };
  const begins = new Map(
    Object.entries(outputs).map(([path, { entryPoint = '' }]) => [resolve(entryPoint), path]),
  );
  for (const name of FIRST) {
    const path = begins.get(join(DIST, name));
    if (path === undefined) throw new Error(`${name} is not imported on demand.`);
    add(path);
  }
  return found;
}

/** In processes of their own, because the engine puts into the form whatever it has compiled of the program. */
async function compile(): Promise<void> {
  const script = join(DIST, 'start', 'compile-cache.js');
  await Promise.all(
    Object.keys(LINES).map((name) => promisify(execFile)(process.execPath, [script, PROGRAM, name])),
  );
}

function escaped(source: string): string {
  return source.replaceAll(
    /[^\n\t\x20-\x7e]/g,
    (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** The licences of the libraries that went into the file, as these ask for. */
function licences(inputs: readonly string[]): string {
  const packages = new Set(
    inputs.flatMap((path) => /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1] ?? []),
  );
  return [...packages]
    .sort()
    .map((folder) => {
      const name = folder.replace(/^.*node_modules\//, '');
      const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
      const { license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
        license: string;
      };
      const text = file === undefined ? '' : `\n\n${readFileSync(join(folder, file), 'utf8').trim()}`;
      return `${name}, ${license}${text}\n`;
    })
    .join(`\n${'-'.repeat(72)}\n\n`);
}
