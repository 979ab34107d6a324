/**
 * Whether the tests notice faults: each of `mutants.json` is put into a copy of the sources, and the tests nearest to it
 * are run there. node tests/mutants/run.mjs [part of a file's name] [--jobs n] [--sound, when
 * the tests just passed without any fault]. Build first. Ends with 1 when fewer than
 * 95 % are caught. Never part of the tests: it takes minutes.
 */
import { execFile } from 'node:child_process';
import { chmodSync, cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs, promisify } from 'node:util';

const ROOT = resolve(import.meta.dirname, '../..');
const PARTS = [
  'bin',
  'dist',
  'src',
  'rules',
  'examples',
  'tests',
  'package.json',
  'tsconfig.json',
  'README.md',
  'LICENSE',
];
const ENOUGH = 0.95;
const { values, positionals } = parseArgs({
  options: { jobs: { type: 'string', default: '2' }, sound: { type: 'boolean', default: false } },
  allowPositionals: true,
});
const all = JSON.parse(readFileSync(join(import.meta.dirname, 'mutants.json'), 'utf8'));
const mutants = all.filter(({ file }) => positionals.every((part) => file.includes(part)));

function copy() {
  const folder = mkdtempSync(join(tmpdir(), 'earshot-mutants-'));
  // Tests that give their rights away must still be able to read it.
  chmodSync(folder, 0o755);
  for (const part of PARTS) cpSync(join(ROOT, part), join(folder, part), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  return folder;
}

/** @returns whether the tests pass */
async function passes(folder, tests) {
  const vitest = join(folder, 'node_modules/vitest/vitest.mjs');
  const argv = [vitest, 'run', '--config', 'tests/vitest.config.ts', '--bail', '1', ...tests];
  try {
    // On the sources: building for each fault would cost more than its tests.
    const env = { ...process.env, EARSHOT_TESTS_FROM: 'src' };
    await promisify(execFile)(process.execPath, argv, { cwd: folder, env, timeout: 900_000 });
    return true;
  } catch {
    return false;
  }
}

const survived = [];
let next = 0;
async function lane() {
  const folder = copy();
  try {
    while (next < mutants.length) {
      const { file, put, by, tests } = mutants[next++];
      const path = join(folder, file);
      const source = readFileSync(path, 'utf8');
      if (source.split(put).length !== 2) throw new Error(`${file}: not there once: ${put}`);
      writeFileSync(
        path,
        source.replace(put, () => by),
      );
      const caught = !(await passes(folder, tests));
      writeFileSync(path, source);
      console.log(`${caught ? 'caught  ' : 'SURVIVED'} ${file}: ${JSON.stringify(put).slice(0, 80)}`);
      if (!caught) survived.push(file);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

// A test that fails anyway catches nothing.
const nearest = [...new Set(mutants.flatMap(({ tests }) => tests))];
if (!values.sound) {
  const clean = copy();
  values.sound = await passes(clean, nearest);
  rmSync(clean, { recursive: true, force: true });
}
if (!values.sound) throw new Error(`Without any fault these fail already: ${nearest.join(' ')}`);
await Promise.all(Array.from({ length: Number(values.jobs) }, lane));
const share = 1 - survived.length / mutants.length;
console.log(
  `${mutants.length - survived.length} of ${mutants.length} caught (${(100 * share).toFixed(1)} %)`,
);
process.exitCode = share >= ENOUGH ? 0 : 1;
