/**
 * Runs the program and its quick tests on several versions of Node.js and prints a table.
 * node tests/process/versions.mjs [versions, default: 20 22 24 latest]
 * Each version comes from npm's package `node`, into a folder of its own, together with the packed project installed
 * without its development tools; this needs the registry. Ends with 1 when anything fails.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

const PROJECT = path.resolve(import.meta.dirname, '../..');
// These start a browser, a terminal or the whole program many times; they are no matter of the version.
const NOT_QUICK = ['tests/browser/**', 'tests/process/**', 'tests/logbook/killed.test.ts', 'tests/fuzz/**'];
const versions = process.argv.length > 2 ? process.argv.slice(2) : ['20', '22', '24', 'latest'];
const shelf = mkdtempSync(path.join(tmpdir(), 'earshot-versions-'));
// Some tests start this Node.js as another user.
chmodSync(shelf, 0o755);

function packed() {
  const tree = path.join(shelf, 'tree');
  mkdirSync(tree);
  for (const part of [
    'bin',
    'src',
    'rules',
    'examples',
    'package.json',
    'tsconfig.json',
    'README.md',
    'LICENSE',
  ])
    cpSync(path.join(PROJECT, part), path.join(tree, part), { recursive: true });
  symlinkSync(path.join(PROJECT, 'node_modules'), path.join(tree, 'node_modules'));
  const told = execFileSync('npm', ['pack', '--json', '--pack-destination', shelf], {
    cwd: tree,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return path.join(shelf, JSON.parse(told)[0].filename);
}

/** The main jobs of the installed program; the first that fails, or `good`. */
function mainJobs(node, home) {
  const installed = path.join(home, 'node_modules/earshot');
  const jobs = [
    [['diagnose', path.join(installed, 'examples/cases/fork-packs-down.yaml')], 0, /Do this first/],
    [['diagnose', path.join(installed, 'examples/batch.ndjson'), '--format', 'ndjson'], 0, /batch-500/],
    [['predict', '--change', 'front.rebound.low+2'], 0, /→/],
    [['rules', 'check'], 0, /0 errors/],
    [['interview'], 2, /^$/],
  ];
  for (const [argv, code, shown] of jobs) {
    const ran = spawnSync(node, [path.join(installed, 'bin/earshot.js'), ...argv], {
      cwd: home,
      encoding: 'utf8',
      maxBuffer: 1e9,
      env: { ...process.env, EARSHOT_HOME: path.join(home, 'kept') },
    });
    if (ran.status !== code || !shown.test(ran.stdout))
      return `${argv[0]}: exit ${ran.status} ${ran.stderr.slice(0, 200)}`;
    if (/Warning/.test(ran.stderr)) return `${argv[0]}: warns ${ran.stderr.slice(0, 200)}`;
  }
  return 'good';
}

function quickTests(node, home) {
  const report = path.join(home, 'tests.json');
  const started = performance.now();
  const ran = spawnSync(
    node,
    [
      path.join(PROJECT, 'node_modules/vitest/vitest.mjs'),
      ...['run', '--config', 'tests/vitest.config.ts', '--reporter=json', `--outputFile=${report}`],
      ...NOT_QUICK.flatMap((pattern) => ['--exclude', pattern]),
    ],
    { cwd: PROJECT, encoding: 'utf8', maxBuffer: 1e9 },
  );
  const seconds = Math.round((performance.now() - started) / 1000);
  try {
    const { numPassedTests, numFailedTests, testResults } = JSON.parse(readFileSync(report, 'utf8'));
    const failed = testResults
      .filter((file) => file.status === 'failed')
      .map((file) => path.relative(PROJECT, file.name));
    const shown = `${numPassedTests} passed, ${numFailedTests} failed in ${seconds} s`;
    return { good: ran.status === 0 && numPassedTests > 0, shown: [shown, ...failed].join('; ') };
  } catch {
    return { good: false, shown: `did not run: ${ran.stderr.slice(-300)}` };
  }
}

let good = true;
try {
  const tarball = packed();
  for (const version of versions) {
    const home = path.join(shelf, version);
    mkdirSync(home);
    writeFileSync(path.join(home, 'package.json'), '{"private":true}');
    const install = spawnSync(
      'npm',
      ['install', '--omit=dev', '--no-audit', '--no-fund', `node@${version}`, tarball],
      {
        cwd: home,
        encoding: 'utf8',
      },
    );
    const node = path.join(home, 'node_modules/node/bin/node');
    const is = spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout?.trim();
    if (install.status !== 0 || !is) {
      good = false;
      console.log(`${version.padEnd(8)}could not be installed: ${install.stderr.slice(-400)}`);
      continue;
    }
    const jobs = mainJobs(node, home);
    const tests = quickTests(node, home);
    good = good && jobs === 'good' && tests.good;
    console.log(`${is.padEnd(12)}main jobs: ${jobs}   tests: ${tests.shown}`);
  }
} finally {
  rmSync(shelf, { recursive: true, force: true });
}
process.exitCode = good ? 0 : 1;
