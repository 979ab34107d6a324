/**
 * Breaks the program in one place at a time and looks whether the nearest tests notice.
 * node tests/bench/mutants.mjs [part of a file name]
 *
 * The list is mutants.json: file, the text to break, what it becomes, and the tests that stand nearest. It works on a
 * copy; nothing of this folder is touched.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

const here = path.dirname(new URL(import.meta.url).pathname);
const root = path.resolve(here, '../..');
const wanted = process.argv[2] ?? '';
const mutants = JSON.parse(readFileSync(path.join(here, 'mutants.json'), 'utf8')).filter(({ file }) =>
  file.includes(wanted),
);
const copy = mkdtempSync(path.join(tmpdir(), 'earshot-mutants-'));
const lived = [];
try {
  for (const name of ['src', 'tests', 'rules', 'examples', 'bin', 'dist', 'package.json', 'tsconfig.json'])
    cpSync(path.join(root, name), path.join(copy, name), { recursive: true });
  symlinkSync(path.join(root, 'node_modules'), path.join(copy, 'node_modules'));
  const sound = run([...new Set(mutants.flatMap(({ tests }) => tests))]);
  if (sound !== 0) throw new Error('The tests fail on the program as it is.');
  for (const { file, find, becomes, tests } of mutants) {
    const place = path.join(copy, file);
    const text = readFileSync(place, 'utf8');
    if (text.split(find).length !== 2) throw new Error(`${file}: this is not there just once: ${find}`);
    writeFileSync(
      place,
      text.replace(find, () => becomes),
    );
    const killed = run(tests) !== 0;
    writeFileSync(place, text);
    if (!killed) lived.push({ file, find, becomes });
    console.log(`${killed ? 'killed' : 'LIVES '}  ${file}: ${find.trim()} → ${becomes.trim()}`);
  }
} finally {
  rmSync(copy, { recursive: true });
}
const killed = mutants.length - lived.length;
console.log(`${killed} of ${mutants.length} killed (${((100 * killed) / mutants.length).toFixed(0)} %)`);
process.exitCode = killed / mutants.length >= 0.95 ? 0 : 1;

/** @returns 0 when all pass */
function run(tests) {
  const vitest = path.join(root, 'node_modules/vitest/vitest.mjs');
  const one = ['--maxWorkers=1', '--no-file-parallelism'];
  const args = [vitest, 'run', '--bail=1', ...one, '--config', 'tests/vitest.config.ts', ...tests];
  return spawnSync(process.execPath, args, {
    cwd: copy,
    env: { ...process.env, EARSHOT_TESTS_FROM: 'src' },
    stdio: 'ignore',
    timeout: 300_000,
  }).status;
}
