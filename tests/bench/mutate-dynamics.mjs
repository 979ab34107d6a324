// Puts each fault of mutants-dynamics.mjs into a copy of the source and runs the tests of the model over it: a fault that
// no test notices is printed. node tests/bench/mutate-dynamics.mjs [first [last]]
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { MUTANTS } from './mutants-dynamics.mjs';

const root = new URL('../..', import.meta.url).pathname;
const copy = mkdtempSync(join(tmpdir(), 'mutants-'));
for (const part of ['src', 'tests', 'rules', 'examples', 'package.json', 'tsconfig.json'])
  cpSync(join(root, part), join(copy, part), { recursive: true });
symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'));

/** Cheap tests first, so that most faults are known in seconds. */
const ROUNDS = [
  [
    'tests/published/dynamics-hydraulics.test.ts',
    'tests/physics/roads.test.ts',
    'tests/physics/swing-metrics.test.ts',
    'tests/physics/bike-metrics.test.ts',
    'tests/physics/draws.test.ts',
    'tests/physics/bike.test.ts',
    'tests/physics/linkage.test.ts',
    'tests/physics/temperature.test.ts',
    'tests/physics/cross-talk.test.ts',
  ],
  ['tests/physics/signs.test.ts', 'tests/physics/predict.test.ts', 'tests/physics/audit.test.ts'],
  [
    'tests/published/dynamics-solver.test.ts',
    'tests/physics/simulate.test.ts',
    'tests/physics/start.test.ts',
    'tests/physics/fit.test.ts',
    'tests/physics/extremes.test.ts',
  ],
];
const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
const passes = (files) =>
  spawnSync(
    process.execPath,
    [vitest, 'run', '--config', 'tests/vitest.config.ts', '--bail', '1', ...files],
    {
      cwd: copy,
      stdio: 'ignore',
      // The copy is not built.
      env: { ...process.env, EARSHOT_TESTS_FROM: 'src' },
    },
  ).status === 0;

/** Names are unique below the model. */
function pathOf(file) {
  const physics = join(copy, 'src', 'physics');
  return join(
    physics,
    readdirSync(physics, { recursive: true }).find((path) => basename(path) === file),
  );
}

const gone = MUTANTS.filter(([file, from]) => !readFileSync(pathOf(file), 'utf8').includes(from));
for (const [file, from] of gone) console.log(`${file} does not hold: ${from}`);
if (gone.length > 0) {
  rmSync(copy, { recursive: true, force: true });
  process.exit(1);
}

const [first = 0, last = MUTANTS.length] = process.argv.slice(2).map(Number);
const lived = [];
let tried = 0;
try {
  for (const [file, from, to] of MUTANTS.slice(first, last)) {
    const path = pathOf(file);
    const text = readFileSync(path, 'utf8');
    writeFileSync(path, text.replace(from, to));
    const survived = ROUNDS.every(passes);
    writeFileSync(path, text);
    tried++;
    if (survived) lived.push(`${file}: ${from} → ${to}`);
    console.log(`${survived ? 'LIVED ' : 'killed'}  ${file}: ${from.split('\n')[0]}`);
  }
} finally {
  rmSync(copy, { recursive: true, force: true });
}
console.log(`${tried - lived.length} of ${tried} killed`);
for (const line of lived) console.log(`lived: ${line}`);
