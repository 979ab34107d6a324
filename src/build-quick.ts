/**
 * What every start needs and what a plain case needs go into one file with its compiled form beside it: loading a hundred
 * modules one by one would cost more than the case. All else stays in its modules, and is loaded from there when asked for.
 */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { build, type Plugin } from 'esbuild';
import { ROOT } from './commands/root.ts';

const DIST = join(ROOT, 'dist');
const QUICK = join(DIST, 'quick.cjs');
/** Modules loaded when first needed that a plain case needs. */
const WITHIN = ['built-in', 'diagnose', 'parse', 'problem', 'style'];
/** The case whose functions will be in the compiled form. */
const CASE = join(ROOT, 'examples', 'cases', 'chatter-to-the-hands.yaml');

/** `bin/earshot.js` hands in `elsewhere`: a compiled script cannot import by itself. */
const othersStay: Plugin = {
  name: 'others-stay',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]dist[\\/].*\.js$/ }, ({ path: file }) => ({
      contents: readFileSync(file, 'utf8').replaceAll(
        /\bimport\((['"])(\.[^'"]+)\1\)/g,
        (whole, _, path: string) => {
          if (WITHIN.includes(basename(path, '.js'))) return whole;
          const place = relative(DIST, resolve(dirname(file), path)).replaceAll('\\', '/');
          return `elsewhere(${JSON.stringify(place)})`;
        },
      ),
    }));
  },
};

/** Starting processes is an ability of the command-line library that is not used here, and dear to load. */
const noProcesses: Plugin = {
  name: 'no-processes',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      /[\\/]commander[\\/]/.test(importer) ? { path: 'child_process', namespace: 'none' } : undefined,
    );
    onLoad({ filter: /.*/, namespace: 'none' }, () => ({ contents: 'module.exports = {};' }));
  },
};

const { metafile } = await build({
  entryPoints: [join(DIST, 'main.js')],
  outfile: QUICK,
  bundle: true,
  format: 'cjs',
  platform: 'node',
  target: 'node20',
  minifyWhitespace: true,
  minifySyntax: true,
  legalComments: 'none',
  logLevel: 'warning',
  metafile: true,
  define: { 'import.meta.url': '__here' },
  banner: { js: "const __here = require('node:url').pathToFileURL(__filename).href;" },
  plugins: [othersStay, noProcesses],
});
// It is read a byte a letter, which is the quickest: so it has to be all ASCII. What the bundler leaves are the letters in
// regular expressions, where an escape means the same.
writeFileSync(QUICK, escaped(readFileSync(QUICK, 'utf8')));
writeFileSync(join(DIST, 'quick.LICENSES.txt'), licences(Object.keys(metafile.inputs)));
rmSync(`${QUICK}.cache`, { force: true });
execFileSync(process.execPath, [join(ROOT, 'bin', 'earshot.js'), 'diagnose', CASE], {
  env: { ...process.env, EARSHOT_KEEP_COMPILED: '1' },
  stdio: 'ignore',
});

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
