/**
 * Kills the built program before every writing call to the system, and in the middle of every write, and looks at what is
 * left: what was acknowledged is there, nothing is half done, and the next start leaves nothing over. Linux, with a C
 * compiler: node tests/bench/kill-points.mjs [only these of the scenarios below]. Build first. Ends with 1 when anything is lost.
 */
import { execFile, execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parse, parseAllDocuments, stringify } from 'yaml';
import { run } from '../../dist/main.js';

const ROOT = resolve(import.meta.dirname, '../..');
const LANES = 3;
const BIN = join(ROOT, 'bin/earshot.js');
const shelf = mkdtempSync(join(tmpdir(), 'earshot-kills-'));
const shim = join(shelf, 'kill-points.so');
execFileSync('cc', [
  '-shared',
  '-fPIC',
  '-O1',
  '-o',
  shim,
  join(import.meta.dirname, 'kill-points.c'),
  '-ldl',
]);

function earshot(place, argv, at) {
  const env = { PATH: process.env.PATH, HOME: place, EARSHOT_HOME: join(place, 'home') };
  if (at !== undefined) Object.assign(env, { LD_PRELOAD: shim, KILL_AT: String(at) });
  return new Promise((resolve_) => {
    execFile(process.execPath, [BIN, ...argv], { cwd: place, env }, (error, stdout, stderr) =>
      resolve_({ status: error === null ? 0 : error.code, signal: error?.signal ?? null, stdout, stderr }),
    );
  });
}

/** The next start: the same program, in this process, which saves loading it five hundred times. */
async function startAgain(place, argv) {
  const later = [];
  let err = '';
  const io = {
    out: () => undefined,
    err: (text) => void (err += text),
    stdin: (async function* () {})(),
    cwd: place,
    env: { EARSHOT_HOME: join(place, 'home') },
    stdinIsTty: false,
    stdoutIsTty: false,
    stderrIsTty: false,
    width: 80,
    now: () => new Date(),
  };
  // As the process does it: what may wait is done once the output is out.
  const code = await run(argv, { ...io, afterwards: (work) => void later.push(work) });
  for (const work of later) await work();
  return { code, err };
}

const BIKE = ['--bike', 'b.yaml'];
const done = async (place, ...argv) => {
  const ran = await earshot(place, argv);
  if (ran.status !== 0) throw new Error(`${argv.join(' ')}: ${ran.status}\n${ran.stderr}`);
};
const change = ['log', 'change', 'front.rebound.low+1', ...BIKE];
const plan = ['trial', 'plan', '--long', '--change', 'front.rebound.low+2', ...BIKE];
const record = (...more) => ['trial', 'record', '--rating', 'overall=4', ...more, ...BIKE];
const MODEL = ['diagnose', 'rows.yaml', ...BIKE];
const misnumbered = async (place) => {
  await done(place, ...change);
  const file = join(place, 'home/bikes/birch/history.yaml');
  writeFileSync(file, readFileSync(file, 'utf8').replace('\nentry: 2\n', '\nentry: 1\n'));
};
/** A change in the log whose sheet is as it was: a kill came between the two. */
const interrupted = async (place) => {
  const sheet = readFileSync(join(place, 'b.yaml'), 'utf8');
  await done(place, ...change);
  writeFileSync(join(place, 'b.yaml'), sheet);
  const changes = [{ setting: 'front.rebound.low', from: 8, to: 9, unit: 'clicks' }];
  const before = createHash('sha256').update(sheet).digest('hex');
  const note = { after: 1, kind: 'change', changes, intent: 'front.rebound.low+1', before };
  writeFileSync(join(place, 'home/bikes/birch/sheet/pending.yaml'), stringify(note));
};
/** What each begins from, what is killed, and a start after it that may write. */
const SCENARIOS = {
  'first change': { killed: change },
  'second change': { before: [change], killed: change },
  undo: { before: [change], killed: ['log', 'undo', ...BIKE] },
  note: { before: [change], killed: ['log', 'note', 'new grips', ...BIKE] },
  start: { before: [change], killed: ['log', 'start', ...BIKE] },
  'note on a log with a number twice': {
    prepare: misnumbered,
    killed: ['log', 'note', 'new grips', ...BIKE],
  },
  plan: { killed: plan },
  'first run': { before: [plan], killed: record() },
  'second run': { before: [plan, record()], killed: record() },
  'run put right': { before: [plan, record()], killed: record('--run', '1') },
  judge: {
    before: [plan, record(), record('--run', 'plus'), record()],
    killed: ['trial', 'judge', '--close', ...BIKE],
  },
  'first note': { killed: ['log', 'note', 'new grips', ...BIKE] },
  // What it keeps of the bike's model is swept when that is looked up again.
  'plan from a case': { killed: ['trial', 'plan', '--long', '--case', 'rows.yaml', ...BIKE], later: MODEL },
  'first look at a bike': { killed: MODEL, again: true },
  'number of a sheet': { killed: ['bike', 'set', 'front.tyre=24psi', ...BIKE], again: true },
  'run taken off': { before: [plan, record()], killed: ['trial', 'record', '--drop-last', ...BIKE] },
  'change behind an interrupted one': {
    prepare: interrupted,
    killed: ['log', 'change', 'front.compression.low+1', ...BIKE],
  },
  'the interrupted change again': { prepare: interrupted, killed: change },
  'sheet over another': {
    before: [['report', 'c.yaml', '--out', 'sheet.html', ...BIKE]],
    killed: ['report', 'c.yaml', '--force', '--out', 'sheet.html', ...BIKE],
    again: true,
  },
  'new sheet': { killed: ['bike', 'start', 'b.yaml', '--write', 'new.yaml'], again: true },
  'sheet in a file': { killed: ['report', 'c.yaml', '--out', 'sheet.html', ...BIKE], again: true },
  'compiled pack': {
    killed: ['--rules', join(ROOT, 'examples/packs/night-ride'), 'rules', 'show', 'causes'],
    again: true,
  },
};

function entriesOf(place) {
  const file = join(place, 'home/bikes/birch/history.yaml');
  if (!existsSync(file)) return [];
  return parseAllDocuments(readFileSync(file, 'utf8')).flatMap((document) => {
    if (document.errors.length > 0) throw new Error(`${file}: ${document.errors[0].message}`);
    return document.contents === null ? [] : [document.toJS()];
  });
}

function trialOf(place) {
  const folder = join(place, 'home/bikes/birch/trials');
  const [name] = existsSync(folder) ? readdirSync(folder).filter((one) => one.endsWith('.yaml')) : [];
  return name === undefined ? undefined : parse(readFileSync(join(folder, name), 'utf8'));
}

const kinds = (place) =>
  entriesOf(place)
    .map(({ kind }) => kind)
    .join(' ');
const rowOf = (sheet) => JSON.stringify(sheet).match(/"low":\{[^}]*"now":(\d+)/)?.[1];

/** What is wrong after a kill and the next start; empty when nothing is. */
function faultsOf(place, { killed, again }, told, whole, before) {
  const faults = [];
  const left = readdirSync(place, { recursive: true })
    .map(String)
    .filter((name) => /\.aside$|\.part$|pending|\.json\.\d/.test(name));
  if (left.length > 0) faults.push(`left over: ${left.join(' ')}`);
  if (again) return faults;
  const entries = entriesOf(place);
  if (entries.some(({ entry }, i) => entry !== i + 1)) faults.push('numbers out of order');
  const own = kinds(place).replace(/(?: |^)note$/, '');
  if (told && own !== whole.kinds) faults.push(`acknowledged and lost: ${own} instead of ${whole.kinds}`);
  const stands = entries
    .flatMap(({ changes = [] }) => changes)
    .findLast(({ setting }) => setting === 'front.rebound.low')?.to;
  const now = rowOf(parse(readFileSync(join(place, 'b.yaml'), 'utf8')));
  if (stands !== undefined && String(stands) !== now) faults.push(`sheet at ${now}, log at ${stands}`);
  const runs = trialOf(place)?.ridden?.length ?? 0;
  if (told && runs !== whole.runs) faults.push(`runs: ${runs} instead of ${whole.runs}`);
  if (runs < before.runs && !killed.includes('--drop-last'))
    faults.push(`runs lost: ${runs} of ${before.runs}`);
  if (told && killed[1] === 'judge' && trialOf(place)?.verdict === undefined) faults.push('verdict lost');
  return faults;
}

let points = 0;
let bad = 0;
for (const [name, scenario] of Object.entries(SCENARIOS)) {
  if (process.argv.length > 2 && !process.argv.slice(2).includes(name)) continue;
  const template = join(shelf, 'template');
  rmSync(template, { recursive: true, force: true });
  mkdirSync(template);
  cpSync(join(ROOT, 'examples/bikes/all-knobs.yaml'), join(template, 'b.yaml'));
  cpSync(join(ROOT, 'examples/cases/fork-packs-down.yaml'), join(template, 'rows.yaml'));
  writeFileSync(
    join(template, 'rows.yaml'),
    readFileSync(join(template, 'rows.yaml'), 'utf8').replace(/^bike:.*\n/m, ''),
  );
  writeFileSync(join(template, 'c.yaml'), 'case: 1\nid: c\nanswers: { complaint: rows, hit-pattern: row }\n');
  for (const argv of scenario.before ?? []) await done(template, ...argv);
  await scenario.prepare?.(template);
  const before = { runs: trialOf(template)?.ridden?.length ?? 0 };
  const fresh = (at) => {
    const place = join(shelf, `place-${at}`);
    rmSync(place, { recursive: true, force: true });
    cpSync(template, place, { recursive: true });
    return place;
  };
  const clean = fresh(0);
  const { status, stdout, stderr } = await earshot(clean, scenario.killed);
  if (status !== 0) throw new Error(`${name}: ${status}\n${stderr}`);
  const whole = { kinds: kinds(clean), runs: trialOf(clean)?.ridden?.length ?? 0 };
  let count = 0;
  let next = 1;
  let over = false;
  const lane = async () => {
    while (!over) {
      const at = next++;
      const place = fresh(at);
      const killed = await earshot(place, scenario.killed, at);
      if (killed.signal !== 'SIGKILL') over = true;
      else {
        count++;
        const told = killed.stdout === stdout && stdout !== '';
        const after = await startAgain(
          place,
          scenario.again ? scenario.killed : ['log', 'note', 'next', ...BIKE],
        );
        if (scenario.later !== undefined) await startAgain(place, scenario.later);
        const faults = faultsOf(place, scenario, told, whole, before);
        if (!scenario.again && after.code !== 0)
          faults.push(`the next start came to ${after.code}: ${after.err}`);
        if (faults.length > 0) {
          bad++;
          console.log(`${name}, call ${at}: ${faults.join('; ')}`);
        }
      }
      rmSync(place, { recursive: true, force: true });
    }
  };
  await Promise.all(Array.from({ length: LANES }, lane));
  points += count;
  console.log(`${name}: ${count} points`);
}
rmSync(shelf, { recursive: true, force: true });
console.log(`${points} kill points, ${bad} with anything lost or left over`);
process.exitCode = bad === 0 ? 0 : 1;
