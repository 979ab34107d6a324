/**
 * A monkey at the keyboard of real interviews in a pseudo-terminal: single keys, keys held down, pastes, and keys before
 * anything can be read. After each it looks into the file that is kept: a pressed key may have given one answer, held
 * down or not; a paste and what was typed ahead none. node tests/bench/monkey.mjs [minutes, default 10] [seed]. Build
 * first. Ends with 1 when an answer was recorded that nobody gave.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { parse } from 'yaml';

const ROOT = path.resolve(import.meta.dirname, '../..');
const minutes = Number(process.argv[2] ?? 10);
let state = Number(process.argv[3] ?? 1) >>> 0;
/** Mulberry32. */
const random = () => {
  state = (state + 0x6d2b79f5) >>> 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
};
const oneOf = (list) => list[Math.floor(random() * list.length)];
const KEYS = [
  '\r',
  '\r',
  '1',
  '1',
  '2',
  '3',
  '4',
  '5',
  'c',
  'n',
  's',
  'w',
  'b',
  'e',
  '?',
  'k',
  'x',
  '\u001b[A',
  '\u001b[B',
  '\t',
];
const PROSE = [
  'The fork packs down, 1 or 2 times\nand 3 more\n',
  '1\n1\n1\n1\n',
  '11111111',
  '\r\r\r\r',
  '1\r2\r',
  'c c c c\n',
];
/** A pause in which a hand was away, and everything shown was read. */
const AWAY = 1500;
/** Between two repeats of a held key; when the machine did not keep to it, the look at it is void. */
const REPEAT = 33;
const LATE = 150;
/** Too soon after an answer for the next question to be read. ms */
const AHEAD = 60;

function answersIn(folder) {
  const interviews = path.join(folder, 'interviews');
  let names = [];
  try {
    names = readdirSync(interviews).filter((name) => name.endsWith('.yaml') && !name.startsWith('.'));
  } catch {
    return 0;
  }
  return names.reduce((sum, name) => {
    const { answers = {} } = parse(readFileSync(path.join(interviews, name), 'utf8')) ?? {};
    return sum + Object.keys(answers).length;
  }, 0);
}

/** @returns how many answers it may have given, or undefined when the machine was too slow for it to mean anything */
async function act(terminal) {
  const what = random();
  if (what < 0.4) {
    terminal.send(oneOf(KEYS));
    return 1;
  }
  if (what < 0.6) {
    terminal.send(oneOf(PROSE));
    return 0;
  }
  if (what < 0.7) {
    terminal.send(`\u001b[200~${oneOf(PROSE)}\u001b[201~`);
    return 0;
  }
  const key = oneOf(KEYS.slice(0, 8));
  terminal.send(key);
  if (what < 0.8) {
    // Typed ahead: on the heels of an answer, before the next question can be read.
    const sent = performance.now();
    await sleep(AHEAD);
    // A machine that was late made of it a second press, after the question could be read.
    if (performance.now() - sent > LATE) return undefined;
    terminal.send(oneOf(KEYS));
    return 1;
  }
  await sleep(oneOf([250, 500, 660]));
  let last = performance.now();
  for (let i = 0; i < 30; i++) {
    terminal.send(key);
    await sleep(REPEAT);
    if (performance.now() - last > LATE) return undefined;
    last = performance.now();
  }
  return 1;
}

const outfile = path.join(ROOT, 'node_modules/.cache/earshot', `monkey-${process.pid}.mjs`);
await build({
  entryPoints: [path.join(ROOT, 'tests/support/terminal.ts')],
  bundle: true,
  platform: 'node',
  format: 'esm',
  packages: 'external',
  outfile,
});
const end = performance.now() + minutes * 60_000;
let [interviews, acts, given, void_, wrong] = [0, 0, 0, 0, 0];
try {
  const { Terminal } = await import(pathToFileURL(outfile).href);
  while (performance.now() < end) {
    const folder = mkdtempSync(path.join(tmpdir(), 'earshot-monkey-'));
    const terminal = new Terminal(['interview'], { env: { EARSHOT_HOME: folder } });
    // A key before anything stands there. Letters would be words, which the opening listens to.
    terminal.send(oneOf(['\r', '1', '2', '\r\r', '1\r']));
    await terminal.see('your own words:');
    await sleep(AWAY);
    let before = answersIn(folder);
    if (before > 0) wrong++;
    // The opening may confirm several answers at once; it is left out of the count.
    terminal.send(/(\d) none of these/.exec(terminal.text)[1]);
    await terminal.see('Question 1');
    await sleep(AWAY);
    interviews++;
    before = answersIn(folder);
    for (let i = 0; i < 12 && performance.now() < end; i++) {
      const from = terminal.raw.length;
      const may = await act(terminal);
      await sleep(AWAY);
      const now = answersIn(folder);
      acts++;
      if (may === undefined) void_++;
      else if (now - before > may) {
        wrong++;
        console.log(
          `${now - before} answers where ${may} may be, after:\n${terminal.raw.slice(from).slice(-600)}`,
        );
      }
      given += Math.max(0, now - before);
      before = now;
      if (/And now\?/.test(terminal.text.slice(-400))) break;
    }
    terminal.send('\u0003');
    await terminal.ended();
    rmSync(folder, { recursive: true, force: true });
  }
} finally {
  rmSync(outfile, { force: true });
}
console.log(
  `${interviews} interviews, ${acts} acts, ${given} answers given, ${void_} looks void, ${wrong} answers that nobody gave`,
);
process.exitCode = wrong === 0 ? 0 : 1;
