/**
 * How long the interview takes from an answer's key to the next question on the screen, in a real pseudo-terminal:
 * node tests/bench/interview.mjs [interviews, default 10]. Build first. Looks once a millisecond, so reads up to 1 ms
 * late. Asserts nothing.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const ROOT = path.resolve(import.meta.dirname, '../..');
const interviews = Number(process.argv[2] ?? 10);
/** A pause of a person between reading and answering: the program may use it, and takes no key before. */
const THINKING_MS = 260;
const MOST_QUESTIONS = 12;
const PATIENCE_MS = 15_000;

/**
 * Arrows to the answer of question n of interview i: not always the first, or every interview would be the same. Nothing
 * is chosen to begin with at the safety questions; and return right after the last one could be a key held down.
 */
const keysFor = (i, n, keys) => (n <= 2 || (i * 7 + n * 3) % 3 === 0 ? keys.down : `${keys.down}${keys.up}`);

async function shownAfter(terminal, from, wanted) {
  const end = performance.now() + PATIENCE_MS;
  while (performance.now() < end) {
    const found = wanted.exec(terminal.raw.slice(from));
    if (found !== null) return found[0];
    await sleep(1);
  }
  throw new Error(`The terminal never showed ${wanted}:\n${terminal.text.slice(-1000)}`);
}

async function interviewed({ Terminal, KEYS }, i, argv, home, took) {
  const terminal = new Terminal(['interview', ...argv], { env: { EARSHOT_HOME: home } });
  await terminal.see('or your own words:');
  await terminal.type('8');
  await terminal.see('Question 1');
  for (let n = 1; n <= MOST_QUESTIONS; n++) {
    await sleep(THINKING_MS);
    const keys = keysFor(i, n, KEYS);
    terminal.send(keys);
    await sleep(THINKING_MS);
    const from = terminal.raw.length;
    const start = performance.now();
    terminal.send(KEYS.enter);
    const found = await shownAfter(terminal, from, new RegExp(`Question ${n + 1}\\b|And now\\?`));
    if (found.startsWith('And')) break;
    took.push(performance.now() - start);
  }
  terminal.send(KEYS.ctrlC);
  await terminal.ended();
}

const folder = mkdtempSync(path.join(tmpdir(), 'earshot-bench-'));
// Inside the project, so that the bundle finds the project's folder the way the program does.
const outfile = path.join(ROOT, 'node_modules/.cache/earshot', `terminal-${process.pid}.mjs`);
try {
  await build({
    entryPoints: [path.join(ROOT, 'tests/support/terminal.ts')],
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    outfile,
  });
  const tools = await import(pathToFileURL(outfile).href);
  const bike = ['--bike', path.join(ROOT, 'examples/bikes/all-knobs.yaml')];
  for (const [name, argv] of [
    ['no bike', []],
    ['with a bike sheet', bike],
  ]) {
    const took = [];
    for (let i = 0; i < interviews; i++) await interviewed(tools, i, argv, folder, took);
    const sorted = took.toSorted((a, b) => a - b);
    const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(1);
    console.log(
      `answer to next question, ${name}: median ${at(0.5)} ms, 90 % within ${at(0.9)} ms, longest ${at(1)} ms (${took.length} answers)`,
    );
  }
} finally {
  rmSync(outfile, { force: true });
  rmSync(folder, { recursive: true, force: true });
}
